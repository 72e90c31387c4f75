namespace Clackbeat.Hydraulics.Rating;

/// <summary>A figure from several runs of an estimate.</summary>
/// <param name="Value">Middle of the runs, in the unit its owner states.</param>
/// <param name="HalfWidth">Half the distance from the lowest to the highest run, in the same unit.</param>
public readonly record struct Estimate(double Value, double HalfWidth)
{
    /// <summary>Middle and half width of some runs.</summary>
    /// <param name="runs">At least one value.</param>
    public static Estimate Of(IEnumerable<double> runs)
    {
        var band = Band.Of(runs);
        return new Estimate(band.Middle, (band.High - band.Low) / 2);
    }
}

/// <summary>One change to a ram and what an estimate says it brings.</summary>
public sealed record Remedy
{
    /// <summary>The change.</summary>
    public required RemedyChange Change { get; init; }

    /// <summary>Hard peaks at the body [Pa gauge].</summary>
    public required Estimate PeakPa { get; init; }

    /// <summary>Allowable over peak; null where the allowable isn't known.</summary>
    public Estimate? Margin { get; init; }

    /// <summary>Fatigue life, the ends taken over all runs [years]; null where no curve gives one.</summary>
    public FatigueLife? LifeYears { get; init; }

    /// <summary>Delivered [m³/s].</summary>
    public required Estimate DeliveredM3PerS { get; init; }

    /// <summary>To waste [m³/s].</summary>
    public required Estimate WasteM3PerS { get; init; }

    /// <summary>Beats a minute.</summary>
    public required Estimate BeatsPerMin { get; init; }

    /// <summary>The worst verdict of the runs on the pressure.</summary>
    public required PipeVerdict Verdict { get; init; }

    /// <summary>The worst verdict of the runs on fatigue.</summary>
    public PipeVerdict FatigueVerdict { get; init; }
}

/// <summary>What changes to a ram would bring, estimated and set side by side.</summary>
/// <param name="AsItIs">The ram before any change.</param>
/// <param name="Changes">What was tried.</param>
/// <param name="NotTried">What was left out, and why, in sentences.</param>
/// <param name="Runs">Runs behind every line.</param>
public sealed record RemedyTable(Remedy AsItIs, IReadOnlyList<Remedy> Changes, IReadOnlyList<(RemedyChange Change, RemedyLack Lack)> NotTried, int Runs)
{
    /// <summary>It comes from the twin of the record's own ram: half widths are expanded uncertainties, k = 2.</summary>
    public bool IsOfTwin { get; init; }
}
