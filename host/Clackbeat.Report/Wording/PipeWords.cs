using Clackbeat.Hydraulics.Rating;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>The rating's verdicts, remarks and rules as sentences; the numbers in them stay numbers until somebody writes them.</summary>
public static class PipeWords
{
    /// <summary>What every page that shows a verdict ends with.</summary>
    public static string Deferral =>
        Phrases.Say("rating.reading-published-rules-design-what");

    /// <summary>The verdict on the pressure in a few sentences, then the fatigue estimate.</summary>
    /// <param name="check">The judged pipe.</param>
    public static IReadOnlyList<Sentence> Explanation(PipeCheck check) => [.. Verdict(check), .. Fatigue(check)];

    /// <summary>The verdict on the pressure in a few sentences.</summary>
    /// <param name="check">The judged pipe.</param>
    public static IReadOnlyList<Sentence> Verdict(PipeCheck check) =>
    [
        .. check.Remarks.Select(Of),
        .. check.Suction is { CollapseVerdict: PipeVerdict.Over } ? (Sentence[])[Phrases.Say("rating.suction-alone-enough-fold-wall")] : [],
    ];

    /// <summary>The verdict in two or three words.</summary>
    /// <param name="verdict">The verdict.</param>
    public static string Brief(PipeVerdict verdict) => ReportWords.PipeHeading(verdict);

    /// <summary>What else should be known: what was assumed, what is missing, where the rule ends.</summary>
    /// <param name="check">The judged pipe.</param>
    public static IReadOnlyList<Sentence> Notes(PipeCheck check) => [.. check.Notes.Select(Of)];

    /// <summary>The fatigue estimate in sentences.</summary>
    /// <param name="check">The judged pipe.</param>
    public static IReadOnlyList<Sentence> Fatigue(PipeCheck check) =>
        check.Fatigue is { } fatigue ? [.. FatigueWords.Of(fatigue, check.DesignLifeYears)] : [];

    /// <summary>The rule that decided the verdict, with its source; empty where nothing is known.</summary>
    /// <param name="check">The judged pipe.</param>
    public static string Rule(PipeCheck check) => check.DecidedBy switch
    {
        PipeDecision.Part => Phrases.Say("rating.peak-against-rating-printed-weakest", ("weakest", Weakest(check)), ("rule", Of(check.Rule))),
        PipeDecision.Folding =>
            Phrases.Say("rating.buckling-under-suction-2e1-td", ("rule", Of(check.Rule))),
        _ => Of(check.Rule),
    };

    /// <summary>Where the rating comes from; empty when there is none.</summary>
    /// <param name="source">The source.</param>
    public static string Source(RatingSource? source) => source switch
    {
        null => "",
        { Origin: RatingOrigin.Printed } => Phrases.Say("rating.printed-pipe-site-file-says"),
        { Origin: RatingOrigin.Table } => $"{source.Name} ({source.Citation}{Unconfirmed(source)})",
        { Origin: RatingOrigin.MetalWall } =>
            Phrases.Say("rating.computed-mill-tolerance-corrosion-taken", ("name", source.Name), ("thread", source.IsThreaded ? Phrases.Say("rating.thread") : ""), ("citation", source.Citation), ("unconfirmed", Unconfirmed(source))),
        _ => Phrases.Say("rating.computed-wall-2-dr-1", ("stress_mpa", (source.DesignStressPa ?? double.NaN) / 1e6), ("citation", source.Citation)),
    };

    /// <summary>Why another figure could be taken.</summary>
    /// <param name="other">The other figure.</param>
    public static string Basis(RatingAlternative other) => other.Basis switch
    {
        AlternativeBasis.OtherRating => Phrases.Say("rating.lowest-fits-taken-what-printed", ("source", Source(other.Source))),
        AlternativeBasis.PlainRating => Phrases.Say("rating.plain-rating-without-recurringsurge-allowance"),
        AlternativeBasis.BarlowOnFullWall =>
            Phrases.Say("rating.barlow-70-yield-astm-a53"),
        AlternativeBasis.HalfTheRating =>
            Phrases.Say("rating.old-british-rule-cp-312"),
        _ => Phrases.Say("rating.temperature-factor-lower-taken", ("factor", other.Factor ?? double.NaN), ("citation", other.Citation), ("taken_factor", other.TakenFactor ?? double.NaN)),
    };

    /// <summary>One remark as a sentence.</summary>
    /// <param name="remark">The remark.</param>
    public static Sentence Of(RatingRemark remark)
    {
        var said = new SaidPressure(remark.PressurePa ?? double.NaN, remark.UncertaintyPa);
        var limit = new SaidPressure(remark.LimitPa ?? double.NaN);
        return remark.Code switch
        {
            RatingRemarkCode.PeakWithin => Sentence.Say("rating.peak-stays-within-limit-against", ("said", said), ("limit", limit)),
            RatingRemarkCode.PeakNear => Sentence.Say("rating.peak-reaches-limit-within-uncertainty", ("said", said), ("limit", limit)),
            RatingRemarkCode.PeakOver => Sentence.Say("rating.peak-exceeds-limit-against-allowed", ("said", said), ("limit", limit)),
            RatingRemarkCode.PeakUnbounded => Sentence.Say("rating.recorded-peak-against-allowed-again", ("said", said), ("limit", limit)),
            RatingRemarkCode.PeakUnknown => Sentence.Say("rating.no-peak-known-pipe-may", ("limit", limit)),
            RatingRemarkCode.AllowableUnknown => Phrases.Say("rating.pipes-limit-known-no-verdict"),
            RatingRemarkCode.WeakestSection => Sentence.Say("rating.weakest-length-drive-pipe", ("part", remark.Part)),
            RatingRemarkCode.PartOver => Sentence.Say("rating.weakest-part-rated-peak-exceeds", ("part", remark.Part), ("limit", limit)),
            RatingRemarkCode.PartNear => Sentence.Say("rating.weakest-part-rated-peak-reaches", ("part", remark.Part), ("limit", limit)),
            RatingRemarkCode.CeilingOverLimit => Sentence.Say("rating.if-delivery-valve-stuck-shut", ("said", said), ("velocity", Velocity(remark))),
            RatingRemarkCode.CeilingUnderLimit => Sentence.Say("rating.even-if-delivery-valve-stuck", ("said", said), ("velocity", Velocity(remark))),
            RatingRemarkCode.PeakAboveCeiling => Sentence.Say("rating.peak-stands-above-static-ceiling", ("said", said)),
            RatingRemarkCode.MeanOverRating => Sentence.Say("rating.mean-pressure-exceeds-steady-rating", ("said", said), ("limit", limit)),
            RatingRemarkCode.ColumnWhole => Sentence.Say("rating.deepest-suction-stays-above-pressure", ("said", said)),
            RatingRemarkCode.BelowVacuum => Sentence.Say("rating.lowest-reading-deeper-than-full", ("said", said), ("limit", limit)),
            RatingRemarkCode.WallFolds or RatingRemarkCode.WallMayFold => Sentence.Say("rating.suction-can-make-wall-buckle", ("said", said), ("limit", limit)),
            RatingRemarkCode.WallHolds => Sentence.Say("rating.wall-withstands-outside-more-than", ("limit", limit), ("said", said)),
            RatingRemarkCode.NoTemperatureFactor => Phrases.Say("rating.no-temperature-factor-published-here", ("temperature_c", remark.TemperatureC ?? double.NaN)),
            _ => Plain(remark.Code),
        };
    }

    private static string Plain(RatingRemarkCode code) => code switch
    {
        RatingRemarkCode.SensorClipped => Phrases.Say("rating.sensor-stood-end-range-peaks"),
        RatingRemarkCode.SampledTooSlowly => Phrases.Say("rating.fewer-than-six-samples-fall"),
        RatingRemarkCode.SensorTooSlow => Phrases.Say("rating.sensor-line-answers-more-slowly"),
        RatingRemarkCode.PeakReadsLow => Phrases.Say("rating.recorded-peaks-known-read-low"),
        RatingRemarkCode.PeakWithoutUncertainty => Phrases.Say("rating.peak-came-without-uncertainty-cant"),
        RatingRemarkCode.RatingUnknown => Phrases.Say("rating.no-rating-known-give-pressure"),
        RatingRemarkCode.RatingUnconfirmed => Phrases.Say("rating.rating-comes-table-checked-against"),
        RatingRemarkCode.ThreadsHalvePlastic => Phrases.Say("rating.threads-cut-into-plastic-pipe"),
        RatingRemarkCode.ThreadsSupposed => Phrases.Say("rating.how-steel-joined-left-out"),
        RatingRemarkCode.TemperatureSupposed => Phrases.Say("rating.pipes-temperature-left-out-20"),
        RatingRemarkCode.OccasionalSurgeOfPvc => Phrases.Say("rating.awwa-c900-allows-up-16"),
        RatingRemarkCode.RecurringSurgeOfPolyethylene =>
            Phrases.Say("rating.polyethylenes-allowance-half-rating-recurring"),
        RatingRemarkCode.SolderedJoints => Phrases.Say("rating.softsoldered-joints-may-weaker-than"),
        RatingRemarkCode.ColumnMayPart => Phrases.Say("rating.recoil-comes-close-pressure-water") + Parted,
        RatingRemarkCode.ColumnParts => Phrases.Say("rating.recoil-reaches-pressure-water-boils") + Parted,
        RatingRemarkCode.TroughUnknown => Phrases.Say("rating.how-deep-suction-goes-known"),
        RatingRemarkCode.WallUnknown => Phrases.Say("rating.whether-suction-can-fold-wall"),
        _ => throw new ArgumentOutOfRangeException(nameof(code), code, null),
    };

    private static string Parted =>
        Phrases.Say("rating.water-column-parts-where-rejoins");

    private static string Of(PressureRule rule) => rule switch
    {
        PressureRule.AwwaC900 => Phrases.Say("rating.awwa-c900-peak-recurring-surge"),
        PressureRule.AwwaC901 => Phrases.Say("rating.awwa-c901-c906-polyethylene-peak"),
        PressureRule.En545 => Phrases.Say("rating.en-545-peak-allowable-operating"),
        PressureRule.CopperTubeHandbook => Phrases.Say("rating.copper-tube-handbook-peak-rated"),
        PressureRule.AsmeB313 => Phrases.Say("rating.asme-b313-30224-rams-peak"),
        _ => Phrases.Say("rating.peak-rating-temperature-factor-without"),
    };

    private static string Velocity(RatingRemark remark) => remark.IsMeasured
        ? Phrases.Say("rating.closing-velocity-record")
        : Phrases.Say("rating.closing-velocity-expected-such-ram");

    private static string Weakest(PipeCheck check) => check.Fittings.First(f => f.Name != FittingCheck.DrivePipe && f.Verdict == check.Verdict).Name;

    private static string Unconfirmed(RatingSource source) => source.IsUnconfirmed ? Phrases.Say("rating.not-checked-against-standard") : "";
}
