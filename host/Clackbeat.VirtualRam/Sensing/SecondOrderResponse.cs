using System.Numerics;

namespace Clackbeat.VirtualRam.Sensing;

/// <summary>
/// y″ + 2ζω y′ + ω² y = ω² u at a fixed step, exact for an input that runs straight between its points (first-order hold).
/// One complex pole carries the state: y = (ω²/ω_d) Im z, z′ = p z + u.
/// </summary>
internal sealed class SecondOrderResponse
{
    private readonly Complex _decay;
    private readonly Complex _fromLast;
    private readonly Complex _fromNew;
    private readonly double _gain;
    private Complex _state;
    private double _last;

    internal SecondOrderResponse(double naturalFrequencyHz, double dampingRatio, double stepS, double startValue)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(naturalFrequencyHz);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(dampingRatio);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(dampingRatio, 1);
        double omega = 2 * Math.PI * naturalFrequencyHz;
        double damped = omega * Math.Sqrt(1 - dampingRatio * dampingRatio);
        var pole = new Complex(-dampingRatio * omega, damped);
        Complex z = pole * stepS;
        _decay = Complex.Exp(z);
        Complex whole = (_decay - 1) / z * stepS;
        _fromNew = (_decay - 1 - z) / (z * z) * stepS;
        _fromLast = whole - _fromNew;
        _gain = omega * omega / damped;
        _state = -startValue / pole;
        _last = startValue;
    }

    internal double Next(double input)
    {
        _state = _decay * _state + _fromLast * _last + _fromNew * input;
        _last = input;
        return _gain * _state.Imaginary;
    }
}
