using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Beats;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

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
            var window = FlowWindow.Copy(beat, timeS, pressurePa, _headPerPa, _site.Sensor.HeightM);
            _store.Keep(window.WithShut(ShutSpan.Of(window, _site.Supply.HeadM, _hydraulics.PipePeriodS)));
        }
    }

    /// <summary>Works everything out.</summary>
    /// <param name="steady">The part of the record to take the beats from; null for all.</param>
    public FlowResult Finish(SteadySpan? steady = null)
    {
        if (steady is not null)
        {
            _store.KeepWithin(steady.FromS, steady.UntilS);
        }

        var facts = new FlowFacts();
        var withheld = new FlowResult { ExpectedWaveSpeedMPerS = _hydraulics.WaveSpeedMPerS, Findings = facts.Findings, Limits = facts.Limits };
        List<FlowWindow> windows = _store.Some(MostFitted);
        if (windows.Count < LeastBeats)
        {
            facts.Limits.Add(Fact.Of("flow-withheld-few-beats", ("beats_needed", LeastBeats), ("beats", windows.Count)));
            return withheld;
        }

        var sampling = Sampling.Of(windows, _hydraulics.PipePeriodS);
        if (sampling.IsTooSlow)
        {
            facts.Limits.Add(Fact.Of(
                "flow-withheld-sampled-too-slowly",
                ("delivery_ms", 1e3 * sampling.DeliveryS),
                ("samples", sampling.DeliveryS / sampling.StepS),
                ("sample_rate_needed_hz", Sampling.LeastPerDelivery / sampling.DeliveryS)));
            return withheld;
        }

        return new FlowSolution(_site, _hydraulics, windows, _store, sampling, facts).Solve(FitSteps) ?? withheld;
    }
}
