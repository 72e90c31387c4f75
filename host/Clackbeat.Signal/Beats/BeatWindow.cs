using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>A whole beat with its samples, from the start of the open phase before it to the end of the delivery after it.</summary>
/// <param name="Beat">The beat.</param>
/// <param name="Samples">Where the samples are; valid only during the call that hands the window out.</param>
/// <param name="From">Number of the first sample of the open phase before the beat.</param>
/// <param name="To">Number after the last sample of the delivery that follows the beat.</param>
public readonly record struct BeatWindow(Beat Beat, SampleBuffer Samples, long From, long To)
{
    /// <summary>Times of the window's samples [s].</summary>
    public ReadOnlySpan<double> TimesS => Samples.TimesS(From, To);

    /// <summary>Gauge pressures of the window's samples [Pa].</summary>
    public ReadOnlySpan<double> PressuresPa => Samples.PressuresPa(From, To);
}
