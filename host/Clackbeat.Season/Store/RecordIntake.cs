using Clackbeat.Records.Bursts;
using Clackbeat.Records.Sources;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;

namespace Clackbeat.Season.Store;

/// <summary>Figures of a burst beyond those of its analysis.</summary>
/// <param name="analysis">The burst's analysis.</param>
/// <param name="startUtc">Instant of its first sample.</param>
public delegate IReadOnlyDictionary<SeasonFigure, SeasonValue> MoreFigures(RamAnalysis analysis, DateTimeOffset startUtc);

/// <summary>The one way from a source to the bursts that the store keeps of it, whoever brings it.</summary>
public static class RecordIntake
{
    /// <summary>Sums up the bursts of a source that aren't known yet.</summary>
    /// <param name="source">The source; read twice, once to find its bursts and once to analyse those that are new.</param>
    /// <param name="site">The ram.</param>
    /// <param name="isKnown">Tells by its hash that a burst is stored already; such a one is not analysed again.</param>
    /// <param name="take">
    /// Takes each new burst in order; what it is given sums the burst up and must be called on another thread, since samples come
    /// while it works.
    /// </param>
    /// <param name="start">When the first sample was taken; left out: as the source says.</param>
    /// <param name="check">Sees each analysis before it is summed up; throws where the burst must not be stored.</param>
    /// <param name="more">Tells more figures of a burst by its analysis and its start; called on the thread that sums the burst up.</param>
    /// <param name="progress">Receives the share done, 0 to 1.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <exception cref="Site.InputException">The source can't be used, or nobody says when it was recorded.</exception>
    public static IntakeOutcome Read(
        ISampleSource source,
        RamSite site,
        Func<byte[], bool> isKnown,
        Action<Func<SeasonBurst>> take,
        RecordStart? start = null,
        Action<RamAnalysis>? check = null,
        MoreFigures? more = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        IReadOnlyList<CutBurst> cuts = BurstCutter.Find(source, start, Half(progress, 0), cancellation);
        CutBurst[] telling = [.. cuts.Where(c => c.IsTelling)];
        CutBurst[] wanted = [.. telling.Where(c => !isKnown(c.Hash))];
        var outcome = new IntakeOutcome(cuts.Count - telling.Length, telling.Length - wanted.Length, source.Faults);
        BurstFeed.Read(source, wanted, (cut, burst) => take(() => SumUp(cut, burst, site, source.BatteryV, outcome, check, more)), Half(progress, 0.5), cancellation);
        return outcome;
    }

    private static SeasonBurst SumUp(CutBurst cut, ISampleSource burst, RamSite site, double? batteryV, IntakeOutcome outcome, Action<RamAnalysis>? check, MoreFigures? more)
    {
        RamAnalysis analysis = RecordAnalysis.Of(burst, site);
        check?.Invoke(analysis);
        outcome.Note(analysis.Input);
        SeasonBurst kept = BurstSummariser.Of(site, analysis, cut.Start.Utc, cut.Hash, batteryV) with { StartUncertaintyS = cut.Start.UncertaintyS };
        return more is null ? kept : kept with { Figures = kept.Figures.Concat(more(analysis, cut.Start.Utc)).ToDictionary() };
    }

    private static Share? Half(IProgress<double>? whole, double from) => whole is null ? null : new Share(whole, from);

    private sealed class Share(IProgress<double> whole, double from) : IProgress<double>
    {
        public void Report(double value) => whole.Report(from + (0.5 * value));
    }
}

/// <summary>What became of a source's bursts.</summary>
/// <param name="tooShort">Bursts too short to tell anything, passed over.</param>
/// <param name="known">Bursts that were known.</param>
/// <param name="faults">What is wrong with the source.</param>
public sealed class IntakeOutcome(int tooShort, int known, SourceFaults faults)
{
    private bool _isPartial = faults.IsPartial || faults.SkippedRows > 0;

    /// <summary>Bursts too short to tell anything, passed over.</summary>
    public int TooShort => tooShort;

    /// <summary>Bursts that were known.</summary>
    public int Known => known;

    /// <summary>What is wrong with the source.</summary>
    public SourceFaults Faults => faults;

    /// <summary>Some of the samples were lost or can't be used; settled once all new bursts are summed up.</summary>
    public bool IsPartial => Volatile.Read(ref _isPartial);

    /// <summary>Notes what an analysis found unusable; from any thread.</summary>
    internal void Note(InputSummary input)
    {
        if (input.PartlyUnusable)
        {
            Volatile.Write(ref _isPartial, true);
        }
    }
}
