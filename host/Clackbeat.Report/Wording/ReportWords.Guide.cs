using Clackbeat.Words;
namespace Clackbeat.Report.Wording;

/// <content>What figures and pictures mean, how to read the report, and what can hurt.</content>
internal static partial class ReportWords
{
    public static string ExcerptTitle => Phrases.Say("report.few-beats-looked-closely");
    public static string OverlayTitle => Phrases.Say("report.all-beats-laid-over-one");
    public static string IntervalTitle => Phrases.Say("report.time-beat-beat");
    public static string PeakTitle => Phrases.Say("report.peak-pressure-every-beat");
    public static string RecordTitle => Phrases.Say("report.whole-record");
    public static string LadderTitle => Phrases.Say("report.every-pressure-one-scale");

    public static Rich ExcerptCaption =>
        Phrases.Say("report.1-waste-valve-slams-shut");

    public static Rich OverlayCaption =>
        Phrases.Say("report.every-beat-starts-here-instant");

    public static Rich BaselineCaption =>
        Phrases.Say("report.dashed-line-same-ram-record");

    public static Rich IntervalCaption =>
        Phrases.Say("report.dots-level-line-mean-steady");

    public static Rich PeakCaption =>
        Phrases.Say("report.each-dot-highest-sample-one");

    public static Rich RecordCaption =>
        Phrases.Say("report.band-reaches-lowest-highest-sample");

    public static Rich LadderCaption =>
        Phrases.Say("report.pressures-gauge-0-pressure-air");

    /// <summary>Words of the trade that the report can't do without.</summary>
    public static IReadOnlyList<(string Term, Rich Meaning)> Glossary =>
    [
        (Phrases.Say("report.plus-or-minus"), Phrases.Say("report.true-value-within-margin-about")),
        (Phrases.Say("report.waste-valve"), Phrases.Say("report.valve-clacks-open-lets-drive")),
        (Phrases.Say("report.delivery-valve"), Phrases.Say("report.oneway-valve-under-air-vessel")),
        (Phrases.Say("report.air-vessel"), Phrases.Say("report.closed-chamber-whose-air-cushions")),
        (Phrases.Say("report.drive-pipe"), Phrases.Say("report.pipe-intake-down-ram-knock")),
        (Phrases.Say("report.head"), Phrases.Say("report.height-water-10-m-head")),
        (Phrases.Say("report.datum"), Phrases.Say("report.height-everything-measured-outlet-waste")),
        (Phrases.Say("report.gauge-pressure"), Phrases.Say("report.pressure-above-air-around-below")),
        (Phrases.Say("report.efficiency"), Phrases.Say("report.how-much-power-falling-water")),
        (Phrases.Say("report.wave-speed"), Phrases.Say("report.how-fast-knock-runs-through")),
        (Phrases.Say("report.baseline"), Phrases.Say("report.earlier-record-same-ram-when")),
    ];

    /// <summary>What can hurt someone.</summary>
    public static IReadOnlyList<Rich> Cautions =>
    [
        Phrases.Say("report.rams-body-drive-pipe-air"),
        ShutFirst,
        Phrases.Say("report.never-drill-cut-weld-pipe"),
        Phrases.Say("report.plastic-pipe-had-peaks-over"),
        Phrases.Say("report.figures-report-dont-tell-whether"),
        Phrases.Say("report.keep-mains-electricity-away-pump"),
        Phrases.Say("report.intakes-streams-pits-can-drown"),
        Phrases.Say("report.makers-instructions-codes-where-you"),
    ];

    public static string BarePlots => Phrases.Say("report.plots-show-bar-left-psi");
}
