using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>How the amount of a feature is told.</summary>
public enum FeatureAmount
{
    /// <summary>A logarithm: per cent more or less.</summary>
    Ratio,

    /// <summary>Share of the jump.</summary>
    Jump,

    /// <summary>Share, in points of a hundred.</summary>
    Share,

    /// <summary>Periods of the drive pipe.</summary>
    Periods,

    /// <summary>Share of the closing velocity.</summary>
    Closing,

    /// <summary>Not at all.</summary>
    None,
}

/// <summary>How a feature is told, and the part of the beat that shows it.</summary>
/// <param name="Feature">The feature.</param>
/// <param name="As">How its amount is told.</param>
/// <param name="Where">The part of the beat.</param>
public sealed record FeatureTraits(Feature Feature, FeatureAmount As, BeatPart Where)
{
    /// <summary>Over this change a ratio reads better as "times as much" than in per cent.</summary>
    public const double MostPerCent = 3;

    private static readonly Dictionary<Feature, FeatureTraits> All = DiagnosisData.Tables("features.toml").ToDictionary(
        t => Enum.Parse<Feature>(t.Key),
        t => new FeatureTraits(
            Enum.Parse<Feature>(t.Key),
            Enum.Parse<FeatureAmount>((string)t.Value["as"], ignoreCase: true),
            Enum.Parse<BeatPart>((string)t.Value["where"], ignoreCase: true)));

    /// <summary>The traits of a feature.</summary>
    public static FeatureTraits Of(Feature feature) => All[feature];

    /// <summary>A change as a fact.</summary>
    /// <param name="change">Change of the feature.</param>
    /// <param name="hasBaseline">It is against the same ram when it was well, not against what its site leads to expect.</param>
    public Fact Changed(double change, bool hasBaseline)
    {
        // The phrase itself says which way; "slower (27.7 % more)" would say two.
        Fact what = new($"features.{Feature}.{(change > 0 ? "rise" : "fall")}", []);
        Fact against = hasBaseline ? Fact.Of("against-baseline") : Fact.Of("against-site");
        return Much(change) is { } much
            ? Fact.Of("feature-changed", ("what", what), ("much", much), ("against", against))
            : Fact.Of("feature-changed-unmeasured", ("what", what), ("against", against));
    }

    /// <summary>A size alone, as "4 %".</summary>
    /// <param name="change">Size of the change.</param>
    /// <param name="deviation">The feature's standard deviation over well rams, for features that have no amount a reader knows.</param>
    public Fact Size(double change, double deviation) => As switch
    {
        FeatureAmount.Ratio => Fact.Of("size-share", ("share", Math.Exp(change) - 1)),
        FeatureAmount.Share or FeatureAmount.Jump or FeatureAmount.Closing => Fact.Of("size-share", ("share", change)),
        FeatureAmount.Periods => Fact.Of("size-periods", ("periods", change)),
        _ => Fact.Of("size-deviations", ("deviations", change / deviation)),
    };

    private Fact? Much(double change) => As switch
    {
        FeatureAmount.Ratio => Math.Abs(Math.Exp(change) - 1) > MostPerCent
            ? Fact.Of("amount-times", ("ratio", Math.Exp(change)))
            : Fact.Of("amount-share", ("share", Math.Abs(Math.Exp(change) - 1))),
        FeatureAmount.Share => Fact.Of("amount-share", ("share", Math.Abs(change))),
        FeatureAmount.Jump => Fact.Of("amount-jump", ("share", Math.Abs(change))),
        FeatureAmount.Closing => Fact.Of("amount-closing", ("share", Math.Abs(change))),
        FeatureAmount.Periods => Fact.Of("amount-periods", ("periods", Math.Abs(change))),
        _ => null,
    };
}
