using System.Runtime.InteropServices;
using Clackbeat.Site.Model;

namespace Clackbeat.Watch.Live;

/// <summary>
/// Pressures as 16-bit steps for the way to the page: half the size of a float, a twentieth of digits. Four spans of the
/// sensor fit, so that a step is far under what a screen shows.
/// </summary>
/// <param name="LowPa">Pressure of step 0 [Pa gauge].</param>
/// <param name="StepPa">One step [Pa].</param>
public readonly record struct SignalScale(double LowPa, double StepPa)
{
    /// <summary>Stands for "no sample here".</summary>
    public const short Gap = short.MinValue;

    private const double SpansEachWay = 2;

    /// <summary>The scale for a sensor: step 0 in the middle of its range.</summary>
    public static SignalScale For(Sensor sensor)
    {
        double spanPa = sensor.RangeHighPa - sensor.RangeLowPa;
        return new SignalScale(sensor.RangeLowPa + (0.5 * spanPa), SpansEachWay * spanPa / short.MaxValue);
    }

    /// <summary>The step for a pressure [Pa gauge].</summary>
    public short Of(double pressurePa) =>
        (short)Math.Clamp(Math.Round((pressurePa - LowPa) / StepPa), -short.MaxValue, short.MaxValue);

    /// <summary>Steps as text: base 64 of little-endian 16-bit numbers.</summary>
    public static string Text(ReadOnlySpan<short> steps)
    {
        if (BitConverter.IsLittleEndian)
        {
            return Convert.ToBase64String(MemoryMarshal.AsBytes(steps));
        }

        byte[] bytes = new byte[2 * steps.Length];
        for (int i = 0; i < steps.Length; i++)
        {
            System.Buffers.Binary.BinaryPrimitives.WriteInt16LittleEndian(bytes.AsSpan(2 * i), steps[i]);
        }

        return Convert.ToBase64String(bytes);
    }
}
