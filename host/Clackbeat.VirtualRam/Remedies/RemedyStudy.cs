using System.Diagnostics;
using Clackbeat.Hydraulics.Fatigue;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam.Remedies;

/// <summary>
/// What would help a site's drive pipe: the virtual ram of that site is run before and after each change, smooth and lively,
/// and each run's own pressures are counted and judged by the same rules as a record's.
/// </summary>
/// <remarks>An estimate to choose between changes. The valves are made up where the site file doesn't give them.</remarks>
public static class RemedyStudy
{
    private const double ResolutionPa = 1000;
    private const double WarmUpS = 8;
    private const int Beats = 8;
    private const double LongestS = 25;

    // The solver may be coarse here: a change of some per cent is what is asked for.
    private const double StepS = 2e-4;
    private const int Reaches = 200;

    private static readonly (RamCharacter Character, int Seed)[] Runs =
        [(RamCharacter.Smooth, 1), (RamCharacter.Lively, 1), (RamCharacter.Lively, 2)];

    /// <summary>Runs the study.</summary>
    /// <param name="site">The site.</param>
    /// <param name="mostTime">Changes not begun by then are left out, and said to be.</param>
    /// <param name="progress">Receives the share done, 0 to 1; null for nobody.</param>
    /// <param name="stop">Ends the work early.</param>
    /// <exception cref="InputException">The site can't carry a ram.</exception>
    public static RemedyTable Of(RamSite site, TimeSpan mostTime, IProgress<double>? progress = null, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(site);
        var clock = Stopwatch.StartNew();
        var bases = Runs.Select(run => RamDesigner.Design(site, run.Character).Ram).ToList();
        var notTried = new List<(RemedyChange, RemedyLack)>();
        var changes = TriedChanges.For(site).Prepend(TriedChanges.AsItIs).ToList();
        var done = new List<Remedy>();
        foreach (TriedChange? change in changes)
        {
            if (done.Count > 0 && clock.Elapsed > mostTime)
            {
                notTried.Add((change.Change, RemedyLack.Time));
                continue;
            }

            if (Try(site, bases, change, stop) is { } remedy)
            {
                done.Add(remedy);
            }
            else
            {
                notTried.Add((change.Change, change.Change.Code == RemedyCode.AsItIs ? RemedyLack.NoBeat : RemedyLack.Stops));
            }

            progress?.Report((double)(done.Count + notTried.Count) / changes.Count);
        }

        return new RemedyTable(done.Count > 0 ? done[0] : throw InputException.Of("remedy.impossible"),
            [.. done.Skip(1)], notTried, Runs.Length);
    }

    private static Remedy? Try(RamSite site, List<RamParameters> bases, TriedChange change, CancellationToken stop)
    {
        var outcomes = new Outcome?[Runs.Length];
        Parallel.For(0, Runs.Length, new ParallelOptions { CancellationToken = stop }, i =>
            outcomes[i] = Run(change.Site ?? site, change.Ram(bases[i]), change, Runs[i].Seed));
        // A run that stopped beating says as much as a table could: the change is no remedy.
        if (outcomes.Any(o => o is null))
        {
            return null;
        }

        var all = outcomes.Select(o => o!).ToList();
        var lives = all.Select(o => o.Check.FatigueLifeYears).OfType<FatigueLife>().ToList();
        var margins = all.Select(o => o.Check.Margin).OfType<double>().ToList();
        return new Remedy
        {
            Change = change.Change,
            PeakPa = Estimate.Of(all.Select(o => o.PeakPa)),
            Margin = margins.Count > 0 ? Estimate.Of(margins) : null,
            LifeYears = lives.Count > 0
                ? new FatigueLife(lives.Select(l => l.Value).Order().ElementAt(lives.Count / 2), lives.Min(l => l.Low), lives.Max(l => l.High))
                : null,
            DeliveredM3PerS = Estimate.Of(all.Select(o => o.DeliveredM3PerS)),
            WasteM3PerS = Estimate.Of(all.Select(o => o.WasteM3PerS)),
            BeatsPerMin = Estimate.Of(all.Select(o => o.BeatsPerMin)),
            Verdict = all.Select(o => o.Check.Verdict).MaxBy(Badness),
            FatigueVerdict = all.Select(o => o.Check.FatigueVerdict).MaxBy(Badness),
        };
    }

    private static int Badness(PipeVerdict verdict) => verdict switch
    {
        PipeVerdict.Within => 0,
        PipeVerdict.Unknown => 1,
        PipeVerdict.Near => 2,
        _ => 3,
    };

    private static Outcome? Run(RamSite site, RamParameters ram, TriedChange change, int seed)
    {
        var sensor = new SensorParameters { RangeLowPa = -1e5, RangeHighPa = 1e7, RateHz = 1 / StepS };
        var simulation = new RamSimulation(
            ram with { LongestStepS = StepS, MostReaches = Reaches },
            sensor,
            new SimulationOptions { Seed = seed, Fault = change.Fault, WarmUpS = WarmUpS });
        var peaks = new List<double>();
        double lowest = 0.0;
        simulation.BeatEnded += beat =>
        {
            peaks.Add(beat.PeakPa);
            lowest = Math.Min(lowest, beat.SuctionPa);
        };
        var histogram = new RainflowHistogram(-1.1e5, Math.Max(30e5, 3 * 9806.65 * ram.DeliveryMain.OutletHeadM), 300);
        var counter = new RainflowCounter(histogram.Add, ResolutionPa);
        int samples = 0;
        while (peaks.Count < Beats && samples < LongestS * sensor.RateHz)
        {
            counter.Add(simulation.Next().TruePressurePa);
            samples++;
        }

        counter.Finish();
        if (peaks.Count < 2)
        {
            return null;
        }

        RamTotals totals = simulation.Totals;
        double peakPa = peaks.Max();
        return new Outcome(
            peakPa,
            totals.DeliveredM3 / totals.DurationS,
            totals.WasteM3 / totals.DurationS,
            totals.BeatsPerMin!.Value,
            PipeRating.Check(SiteLoad.Of(site) with
            {
                PeakPa = peakPa,
                PeakUncertaintyPa = 0,
                TroughPa = lowest,
                BeatsPerMin = totals.BeatsPerMin,
                Cycles = histogram,
                CyclesDurationS = samples / sensor.RateHz,
                SampleRateHz = null,
                SensorResponseS = null,
            }));
    }

    private sealed record Outcome(double PeakPa, double DeliveredM3PerS, double WasteM3PerS, double BeatsPerMin, PipeCheck Check);
}
