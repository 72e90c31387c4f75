using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Report.Wording;

/// <content>The drive pipe against its rating.</content>
internal static partial class Words
{
    /// <summary>Why the rating printed on the pipe is not the whole story.</summary>
    public const string RecurringLoad =
        "A ram strikes its pipe tens of millions of times a year. Peaks are therefore compared as a load that always comes "
        + "back, without the allowance that some rules grant to a rare surge.";

    public const string PipeDefers =
        "This is a check against published rules, no approval. The pipe's maker, the codes where you live and a licensed "
        + "engineer have the last word.";

    public const string NoFittings =
        "The site file names no valve, union, hose or vessel with its rating, so only the pipe was judged. Often a fitting is the "
        + "weakest part: add a [[fitting]] for each.";

    public const string LevelTitle = "How long the ram stands at each pressure";
    public const string SwingTitle = "How often the pressure swings, and how far";

    public static readonly Rich LevelCaption =
        "Each bar is a share of the time on a scale of powers of ten, so that a knock of a thousandth of the time still shows. "
        + "The dashed line is what the pipe may bear at every beat. The shaded bands are how far a figure may be off.";

    public static readonly Rich SwingCaption =
        "Rainflow count: each square is one size of swing about one middle pressure, darker where it comes more often. Swings up "
        + "and to the right tire the pipe most. A swing that crosses the dashed line peaks above what the pipe may bear.";

    /// <summary>The verdict as a heading.</summary>
    public static string PipeHeading(PipeVerdict verdict) => verdict switch
    {
        PipeVerdict.Within => "Within what it may bear",
        PipeVerdict.Near => "Near what it may bear",
        PipeVerdict.Over => "Over what it may bear",
        _ => "Not judged",
    };

    /// <summary>What the ceiling is.</summary>
    public static string Ceiling(PipeCheck pipe) => pipe.CeilingIsMeasured
        ? "Static + aV/g with the closing velocity of this record: a sudden stop that no delivery valve relieves."
        : "Static + aV/g with the closing velocity expected of such a ram, for this record gave none.";

    /// <summary>A life, to two digits.</summary>
    public static string Years(double years) => years switch
    {
        >= Hydraulics.Fatigue.FatigueCheck.LongestLifeYears => "100\u00A0years or more",
        >= 2 => Digits.Significant(years, 2) + "\u00A0years",
        >= 2.0 / 12 => Digits.Significant(years * 12, 2) + "\u00A0months",
        _ => Digits.Significant(years * 365.25, 2) + "\u00A0days",
    };

    /// <summary>A life with its range, or just the life where the range has no width.</summary>
    public static Rich Life(Hydraulics.Rating.FatigueLife life) => life.Low < life.High
        ? Rich.Of($"{Years(life.Value)} ({Years(life.Low)} to {Years(life.High)})")
        : Years(life.Value);

    /// <summary>A large count.</summary>
    public static string Millions(double count) => Digits.Significant(count * 1e-6, 2) + "\u00A0million";

    /// <summary>How the combinations of curve, load and sum at failure lie about the design life.</summary>
    public static string Outcomes(IReadOnlyList<double> lives, double designLifeYears) =>
        $"{Digits.Count(lives.Count(years => years < designLifeYears))} of {Digits.Count(lives.Count)} combinations of curve, load and "
        + $"sum at failure end before the {Digits.Significant(designLifeYears, 2)} years the pipe is meant to last.";
}
