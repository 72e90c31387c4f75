using Clackbeat.Hydraulics.Fatigue;

namespace Clackbeat.Hydraulics.Rating;

/// <summary>The pressure cycles a pipe meets in a year of running.</summary>
internal sealed record LoadCycles
{
    /// <summary>Cycles of gauge pressure [Pa], counts a year.</summary>
    internal required IReadOnlyList<RainflowCycle> PerYear { get; init; }

    /// <summary>Beats a year; null when the beat rate is unknown.</summary>
    internal double? BeatsPerYear { get; init; }

    /// <summary>Relative uncertainty of the largest range.</summary>
    internal double RangeUncertainty { get; init; }

    /// <summary>What was taken for the swings.</summary>
    internal SwingAssumption Assumption { get; init; }

    /// <summary>Null when neither a count nor beats with a peak are known.</summary>
    internal static LoadCycles? Of(PipeLoad load)
    {
        double? beats = load.BeatsPerMin * 60 * load.RunningHoursPerYear;
        if (load.Cycles is { TotalCount: > 0 } count && load.CyclesDurationS is > 0)
        {
            return Counted(load, count, load.RunningHoursPerYear * 3600 / load.CyclesDurationS.Value, beats);
        }

        return load.PeakPa is { } peak && beats is > 0 ? OneABeat(load, peak, beats.Value) : null;
    }

    /// <summary>Cycles scaled by a factor on their ranges.</summary>
    internal IEnumerable<RainflowCycle> Scaled(double factor) =>
        PerYear.Select(c => c with { Range = c.Range * factor });

    private static LoadCycles Counted(PipeLoad load, RainflowHistogram histogram, double recordsPerYear, double? beats)
    {
        var cycles = histogram.Cycles().Select(c => Reaching(load, c, histogram)).ToList();
        double range = cycles.Max(c => c.Range);
        return new LoadCycles
        {
            PerYear = [.. cycles.Select(c => c with { Count = c.Count * recordsPerYear })],
            BeatsPerYear = beats,
            RangeUncertainty = range > 0 ? Math.Min(0.9, (load.PeakUncertaintyPa ?? 0) / range) : 0,
        };
    }

    // A peak that slipped between the samples makes its cycle too small: the trough stays, the top rises to the estimated peak.
    private static RainflowCycle Reaching(PipeLoad load, RainflowCycle cycle, RainflowHistogram histogram)
    {
        // A cell's average cycle tops out up to a cell under the highest of its cycles.
        double cell = (histogram.High - histogram.Low) / histogram.CellsPerAxis;
        double top = cycle.Mean + cycle.Range / 2;
        if (load.PeakPa is not { } peak || load.CyclesPeakPa is not { } from || top < from - cell || top >= peak
            || cycle.Range < histogram.LargestRange / 2)
        {
            return cycle;
        }

        double trough = cycle.Mean - cycle.Range / 2;
        return cycle with { Range = peak - trough, Mean = (peak + trough) / 2 };
    }

    private static LoadCycles OneABeat(PipeLoad load, double peak, double beats)
    {
        double trough = Math.Min(load.TroughPa ?? 0, peak);
        double range = peak - trough;
        return new LoadCycles
        {
            PerYear = range > 0 ? [new RainflowCycle(range, (peak + trough) / 2, beats)] : [],
            BeatsPerYear = beats,
            RangeUncertainty = range > 0 ? Math.Min(0.9, (load.PeakUncertaintyPa ?? 0) / range) : 0,
            Assumption = load.TroughPa is null ? SwingAssumption.FromZero : SwingAssumption.FromTrough,
        };
    }
}
