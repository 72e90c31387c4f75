using System.Numerics;

namespace Clackbeat.VirtualRam.Sensing;

/// <summary>
/// y″ + 2ζω y′ + ω² y = ω² u at a fixed step, exact for an input that runs straight between its points (first-order hold).
/// One complex pole carries the state: y = (ω²/ω_d) Im z, z′ = p z + u.
/// </summary>
internal sealed class SecondOrderResponse
{
    private readonly Complex decay;
    private readonly Complex fromLast;
    private readonly Complex fromNew;
    private readonly double gain;
    private Complex state;
    private double last;

    internal SecondOrderResponse(double naturalFrequencyHz, double dampingRatio, double stepS, double startValue)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(naturalFrequencyHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dampingRatio);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(dampingRatio, 1);
        var omega = 2 * Math.PI * naturalFrequencyHz;
        var damped = omega * Math.Sqrt(1 - dampingRatio * dampingRatio);
        var pole = new Complex(-dampingRatio * omega, damped);
        var z = pole * stepS;
        decay = Complex.Exp(z);
        var whole = (decay - 1) / z * stepS;
        fromNew = (decay - 1 - z) / (z * z) * stepS;
        fromLast = whole - fromNew;
        gain = omega * omega / damped;
        state = -startValue / pole;
        last = startValue;
    }

    internal double Next(double input)
    {
        state = decay * state + fromLast * last + fromNew * input;
        last = input;
        return gain * state.Imaginary;
    }
}
