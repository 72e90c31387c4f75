using Clackbeat.Protocol;
using Clackbeat.VirtualLogger.Converter;

namespace Clackbeat.Logger.Tests.Charged;

/// <summary>A converter whose counts tell the true time of the conversion, in steps of 8 µs and round again after 33 ms.</summary>
internal sealed class ClockedConverter : IConverterSource
{
    private const double StepUs = 8;
    private const int Steps = 4096;

    public bool TryRead(int channel, double timeS, out int counts)
    {
        counts = channel == Channels.Pressure ? (int)((long)(timeS * 1e6 / StepUs) % Steps) : 3000;
        return true;
    }

    /// <summary>How much later than its stated time a sample was converted [µs]; between −16 and 16 ms.</summary>
    public static double LagUs(int counts, long statedUs)
    {
        double lag = (counts * StepUs) - (statedUs % (Steps * StepUs));
        double half = Steps * StepUs / 2;
        return lag > half ? lag - (2 * half) : lag < -half ? lag + (2 * half) : lag;
    }
}
