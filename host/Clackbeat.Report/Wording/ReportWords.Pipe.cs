using Clackbeat.Hydraulics.Rating;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <content>The drive pipe against its rating.</content>
internal static partial class ReportWords
{
    /// <summary>Why the rating printed on the pipe is not the whole story.</summary>
    public static string RecurringLoad =>
        Phrases.Say("rating.ram-strikes-pipe-tens-millions");

    public static string PipeDefers =>
        Phrases.Say("rating.check-against-published-rules-no");

    public static string NoFittings =>
        Phrases.Say("rating.site-file-names-no-valve");

    public static string LevelTitle => Phrases.Say("rating.how-long-ram-stands-each");
    public static string SwingTitle => Phrases.Say("rating.how-often-pressure-swings-how");

    public static Rich LevelCaption =>
        Phrases.Say("rating.each-bar-share-time-scale");

    public static Rich SwingCaption =>
        Phrases.Say("rating.rainflow-count-each-square-one");

    /// <summary>The verdict as a heading.</summary>
    public static string PipeHeading(PipeVerdict verdict) => verdict switch
    {
        PipeVerdict.Within => Phrases.Say("rating.within-limit"),
        PipeVerdict.Near => Phrases.Say("rating.near-limit"),
        PipeVerdict.Over => Phrases.Say("rating.over-limit"),
        _ => Phrases.Say("rating.not-judged"),
    };

    /// <summary>What the fatigue estimate says of the design life, after the life itself.</summary>
    public static string Against(PipeVerdict fatigue) => fatigue switch
    {
        PipeVerdict.Over => Phrases.Say("rating.less-than-meant-last-replace"),
        PipeVerdict.Near => Phrases.Say("rating.published-curves-differ-much"),
        _ => "",
    };

    /// <summary>The fatigue estimate as a heading.</summary>
    public static string FatigueHeading(FatigueCheck fatigue) => (fatigue.Verdict, fatigue.Life) switch
    {
        (PipeVerdict.Over, _) => Phrases.Say("rating.fatigue-replace-pipe"),
        (_, { } life) when life.Low < life.High => Phrases.Say("rating.fatigue-lasts-between", ("low", Years(life.Low)), ("high", Years(life.High))),
        (PipeVerdict.Within, _) => Phrases.Say("rating.fatigue-none-expected"),
        _ => Phrases.Say("rating.fatigue-no-life-years"),
    };

    /// <summary>What the ceiling is.</summary>
    public static string Ceiling(PipeCheck pipe) => pipe.CeilingIsMeasured
        ? Phrases.Say("rating.static-ceiling-closing-velocity-record")
        : Phrases.Say("rating.static-ceiling-closing-velocity-expected");

    /// <summary>The verdict as one word of a table.</summary>
    public static string PipeVerdictWord(PipeVerdict verdict) => verdict switch
    {
        PipeVerdict.Within => Phrases.Say("rating.word-within"),
        PipeVerdict.Near => Phrases.Say("rating.word-near"),
        PipeVerdict.Over => Phrases.Say("rating.word-over"),
        _ => Phrases.Say("rating.word-unknown"),
    };

    /// <summary>A part of the line by the name the site file gives it; the pipe itself has none there.</summary>
    public static string PartName(string name) => name == FittingCheck.DrivePipe ? Phrases.Say("report.drive-pipe-part") : name;

    /// <summary>What a fatigue curve is called: the details of a steel pipe in words, others by who published them.</summary>
    /// <param name="name">As the check has it.</param>
    public static string CurveName(string name) => name switch
    {
        SteelFatigue.MillWeld => Phrases.Say("report.curve-mill-weld"),
        SteelFatigue.Thread => Phrases.Say("report.curve-thread"),
        _ => name,
    };

    /// <summary>Where a fatigue curve comes from.</summary>
    /// <param name="source">As the check has it.</param>
    public static string CurveSource(string source) => source == SteelFatigue.Source ? Phrases.Say("report.source-steel-fatigue") : source;

    /// <summary>A life, to two digits.</summary>
    public static string Years(double years) => years switch
    {
        >= FatigueCheck.LongestLifeYears => Phrases.Say("rating.100-years-more"),
        >= 2 => Phrases.Say("rating.years", ("years", Digits.Significant(years, 2))),
        >= 2.0 / 12 => Phrases.Say("rating.months", ("months", Digits.Significant(years * 12, 2))),
        _ => Phrases.Say("rating.days", ("days", Digits.Significant(years * 365.25, 2))),
    };

    /// <summary>A life with its range, or just the life where the range has no width.</summary>
    public static Rich Life(FatigueLife life) => life.Low < life.High
        ? Rich.Say("rating.to", ("value", Years(life.Value)), ("low", Years(life.Low)), ("high", Years(life.High)))
        : Years(life.Value);

    /// <summary>A large count.</summary>
    public static string Millions(double count) => Phrases.Say("rating.million", ("millions", Digits.Significant(count * 1e-6, 2)));

    /// <summary>How the combinations of curve, load and sum at failure lie about the design life.</summary>
    public static string Outcomes(IReadOnlyList<double> lives, double designLifeYears) =>
        Phrases.Say("rating.combinations-curve-load-sum-failure", ("ended", Digits.Count(lives.Count(years => years < designLifeYears))), ("count", Digits.Count(lives.Count)), ("design_life_years", Digits.Significant(designLifeYears, 2)));
}
