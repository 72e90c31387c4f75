namespace Clackbeat.Report.Wording;

/// <content>What figures and pictures mean, how to read the report, and what can hurt.</content>
internal static partial class Words
{
    public const string ExcerptTitle = "A few beats, looked at closely";
    public const string OverlayTitle = "All beats laid over one another";
    public const string IntervalTitle = "Time from beat to beat";
    public const string PeakTitle = "Peak pressure of every beat";
    public const string RecordTitle = "The whole record";
    public const string LadderTitle = "Every pressure on one scale";

    public static readonly Rich ExcerptCaption =
        "1: the waste valve slams shut and the moving water piles up. 2 (blue): the pressure opens the delivery valve and water "
        + "goes up the hill. 3 (orange): the delivery valve shuts, the water springs back, and the pressure falls below that of "
        + "the air. 4: the waste valve falls open, and the water picks up speed for the next beat.";

    public static readonly Rich OverlayCaption =
        "Every beat starts here at the instant its waste valve shuts. A narrow band means that all beats are alike; a wide one "
        + "shows where they differ.";

    public static readonly Rich BaselineCaption =
        "The dashed line is the same ram in the record you gave as its baseline.";

    public static readonly Rich IntervalCaption =
        "Dots on a level line mean a steady ram. Dots that wander or jump tell of a sticking valve or a changing supply.";

    public static readonly Rich PeakCaption =
        "Each dot is the highest sample of one beat. Between two samples the pressure may have stood higher for an instant.";

    public static readonly Rich RecordCaption =
        "The band reaches from the lowest to the highest sample of each short stretch of time. Grey means that there are no samples.";

    public static readonly Rich LadderCaption =
        "Pressures are gauge: 0 is the pressure of the air around. Bars beside a dot show how far it may be off, or how far the peaks spread.";

    /// <summary>Words of the trade that the report can't do without.</summary>
    public static readonly IReadOnlyList<(string Term, Rich Meaning)> Glossary =
    [
        ("± (plus or minus)", "The truth is expected within this margin in about 95 cases of 100. Where a margin can't be told, the figure is left out or shown without one as a plain reading."),
        ("Waste valve", "The valve that clacks: open, it lets the drive water gain speed; shut, it makes the knock."),
        ("Delivery valve", "The one-way valve under the air vessel that lets water go up the hill and not back."),
        ("Air vessel", "The closed chamber whose air cushions the knock and keeps the water flowing between beats."),
        ("Drive pipe", "The pipe from the intake down to the ram. The knock runs up and down in it."),
        ("Head", "A height of water. 10 m of head press with about 1 bar; 1 psi is about 2.3 ft of head."),
        ("Datum", "The height everything is measured from: the outlet of the waste valve."),
        ("Gauge pressure", "Pressure above that of the air around. Below 0 is suction."),
        ("Efficiency", "How much of the power of the falling water arrives at the outlet. There are several definitions, so the same ram has several efficiencies; compare only like with like."),
        ("Wave speed", "How fast the knock runs through the drive pipe. Much slower than expected means air in the water."),
        ("Baseline", "An earlier record of the same ram when it was well, to compare with."),
    ];

    /// <summary>What can hurt someone.</summary>
    public static readonly IReadOnlyList<Rich> Cautions =
    [
        "A ram's body, drive pipe, air vessel and delivery pipe are under pressure, and the knock is several times the standing pressure. Stay out of line with plugs, caps and glued joints while it runs.",
        ShutFirst,
        "Never drill, cut or weld a pipe that may hold pressure. Fit a sensor to a shut-off, drained tee or tapping, with parts rated for the peaks and not only for the mean.",
        "A plastic pipe that has met peaks over its rating may crack later without a warning. Cold and sunlight make it more brittle.",
        "Figures in this report don't tell whether water is fit to drink. Have drinking water tested, and use parts that are approved for it.",
        "Keep mains electricity away from the pump house and wet hands; feed the logger from a battery or a supply made for wet places.",
        "Intakes, streams and pits can drown. Don't work there alone or in high water.",
        "The makers' instructions, the codes where you live and licensed practice go before anything said here.",
    ];

    public const string BarePlots = "Plots show bar on the left and psi on the right.";
}
