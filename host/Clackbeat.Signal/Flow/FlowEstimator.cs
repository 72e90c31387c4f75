using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Beats;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// Flow from the pressure at the body alone. Takes each beat as the detector hands it out, keeps its samples, and at the
/// end fits the drive pipe to all of them; the method, its accuracy and where it fails are in docs/flow-method.md. The
/// result depends on the beats only, not on how the samples came in.
/// </summary>
public sealed class FlowEstimator
{
    // 8 million samples are 64 MB and more than an hour at 1 kHz, each sample standing in two windows.
    private const long MostSamples = 8_000_000;
    private const int MostFitted = 128;
    private const int LeastBeats = 3;
    private const double LeastPerPeriod = 3;
    private const double GoodPerPeriod = 6;
    private const int FitSteps = 8;

    private readonly RamSite _site;
    private readonly SiteHydraulics _hydraulics;
    private readonly double _headPerPa;
    private readonly WindowStore _store = new(MostSamples);

    /// <summary>Makes an estimator.</summary>
    /// <param name="site">The ram; its bucket tests, where given, are taken into account.</param>
    public FlowEstimator(RamSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        _site = site;
        _hydraulics = SiteHydraulics.Of(site);
        _headPerPa = 1 / Head.ToPressurePa(1, _hydraulics.Water.DensityKgPerM3);
    }

    /// <summary>Takes a beat; copies what it needs, so the window may be gone afterwards.</summary>
    public void OnBeat(BeatWindow window) => Add(window.Beat, window.TimesS, window.PressuresPa);

    /// <summary>Takes a beat and its samples, from the open phase before it to the end of the delivery after it.</summary>
    /// <param name="beat">The beat with its marks.</param>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="pressurePa">Gauge pressures [Pa], same length.</param>
    public void Add(Beat beat, ReadOnlySpan<double> timeS, ReadOnlySpan<double> pressurePa)
    {
        ArgumentNullException.ThrowIfNull(beat);
        if (timeS.Length < 16)
        {
            return;
        }

        if (_store.Wants(beat))
        {
            _store.Keep(FlowWindow.Copy(beat, timeS, pressurePa, _headPerPa, _site.Sensor.HeightM));
        }
    }

    /// <summary>Works everything out.</summary>
    public FlowResult Finish()
    {
        var limits = new List<string>();
        var withheld = new FlowResult { ExpectedWaveSpeedMPerS = _hydraulics.WaveSpeedMPerS, Limits = limits };
        List<FlowWindow> windows = _store.Some(MostFitted);
        if (windows.Count < LeastBeats)
        {
            limits.Add($"Flow is withheld: it needs {LeastBeats} whole beats without a gap, and the record has {windows.Count}.");
            return withheld;
        }

        double perPeriod = _hydraulics.PipePeriodS / SampleStepS(windows);
        if (perPeriod < LeastPerPeriod)
        {
            limits.Add(
                $"Flow is withheld: a wave runs up and down the drive pipe in {1e3 * _hydraulics.PipePeriodS:0.0} ms, and only "
                + $"{perPeriod:0.0} samples fall into that time. Sample at least {GoodPerPeriod / _hydraulics.PipePeriodS:0} times a second.");
            return withheld;
        }

        return new FlowSolution(_site, _hydraulics, windows, _store, perPeriod, limits).Solve(FitSteps) ?? withheld;
    }

    private static double SampleStepS(List<FlowWindow> windows)
    {
        double[] steps = [.. windows.Select(w => (w.TimeS[^1] - w.TimeS[0]) / (w.TimeS.Length - 1)).Order()];
        return steps[steps.Length / 2];
    }
}
