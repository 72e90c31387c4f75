using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>The page that a keeper reads: what to do, six figures, one picture of the beat, the pipe, and how good the record is.</summary>
/// <param name="site">The site.</param>
/// <param name="analysis">What the record told.</param>
/// <param name="beat">The picture of the beat; null where the record shows none.</param>
internal sealed class FirstPage(RamSite site, RamAnalysis analysis, PictureBlock? beat)
{
    // A page holds the verdict, six figures and the picture: it is set lower than in the annex.
    private const double PictureHeight = 0.75;

    /// <summary>Its parts, in reading order, after the verdict.</summary>
    public IReadOnlyList<Section> Make()
    {
        Section?[] parts =
        [
            new Section("todo", Phrases.Say("page.todo.title"), [new Bullets([.. ReportWords.ToDo(analysis).Select(s => (Rich)s)])]),
            new Section("figures", Phrases.Say("report.main-figures"), [Figures()]) { IsBare = true },
            beat is null ? null : new Section("picture", Phrases.Say("report.beat"), [new PictureBlock(beat.Drawing with { Height = PictureHeight })]) { IsBare = true },
            new Section("standing", Phrases.Say("report.pipe-and-record"), [new Bullets([Pipe(), Record(), .. Whose()])]) { IsBare = true, IsTight = true },
        ];
        return [.. parts.OfType<Section>()];
    }

    private Rich Pipe()
    {
        (string pressure, string? fatigue) = (ReportWords.PipeHeading(analysis.Pipe.Verdict), analysis.Pipe.Fatigue is { } f ? ReportWords.FatigueHeading(f) : null);
        return fatigue is null
            ? Rich.Say("report.first-pipe", ("pressure", pressure))
            : Rich.Say("report.first-pipe-fatigue", ("pressure", pressure), ("fatigue", fatigue));
    }

    private Rich Record() => Phrases.Say(
        "page.standing.record",
        ("duration", Show.Duration(analysis.Input.DurationS)),
        ("rate", Digits.Significant(analysis.Input.SampleRateHz, 4)),
        ("beats", analysis.Beats.Count),
        ("gaps", analysis.Input.Gaps.Count),
        ("clipped", analysis.Input.ClippedSamples));

    // Where, who and what measured, in one line: a page has no room for three.
    private IEnumerable<Rich> Whose()
    {
        List<Rich> parts = [];
        if (site.Place is { } place)
        {
            parts.Add(Phrases.Say("page.standing.place", ("place", place)));
        }

        if (site.Keeper is { } keeper)
        {
            parts.Add(Phrases.Say("page.standing.keeper", ("keeper", keeper)));
        }

        if (Show.Of(Kind.Pressure, site.Sensor.RangeLowPa) is { } low && Show.Of(Kind.Pressure, site.Sensor.RangeHighPa) is { } high)
        {
            parts.Add(Rich.Say("page.standing.sensor", ("low", low), ("high", high)));
        }

        if (parts.Count > 0)
        {
            yield return new Rich([.. parts.SelectMany((p, i) => i == 0 ? p.Runs : [new Run("; ", null), .. p.Runs])]);
        }
    }

    private Tiles Figures() => new(
    [
        new Tile(Phrases.Say("report.beats-minute"), Bare(Show.Of(Kind.Rate, analysis.Beats.RatePerMin)), analysis.IsStopped ? Phrases.Say("report.while-beat-how-often-waste") : Phrases.Say("report.how-often-waste-valve-shuts")),
        Water(false, Phrases.Say("report.delivered"), a => a.DeliveredM3PerS, Phrases.Say("report.water-goes-up-hill"), Phrases.Say("report.it-delivered")),
        Water(true, Phrases.Say("report.waste"), a => a.WasteM3PerS, Phrases.Say("report.water-spent-lift-rest"), Phrases.Say("report.it-let-run")),
        new Tile(Phrases.Say("report.delivery-pressure"), Show.Of(Kind.Pressure, analysis.Pressure.Delivery), analysis.IsStopped ? Phrases.Say("report.ram-while-delivered") : Phrases.Say("report.ram-while-delivers")),
        Peak(),
        Efficiency(),
    ]);

    // A ram that stands still has no flow now; what it did is told as past.
    private Tile Water(bool isWaste, string name, Func<FlowSummary, Figure?> pick, string meaning, string did)
    {
        if (!analysis.IsStopped)
        {
            return new Tile(name, Show.Of(Kind.Flow, pick(analysis.Flow)), meaning);
        }

        bool runsOn = isWaste && analysis.State == RamState.StoppedOpen;
        return analysis.WhileBeating is { } before && Show.Of(Kind.Flow, pick(before.Flow)) is { } was
            ? new Tile(name, runsOn ? null : Nothing, Rich.Say("report.stands-still-until", ("until", ReportWords.Until(analysis)), ("did", did), ("was", was)))
            : new Tile(name, runsOn ? null : Nothing, Phrases.Say("report.stands-still"));
    }

    private Tile Efficiency() => analysis.WhileBeating is { } before
        ? new Tile(Phrases.Say("report.efficiency"), null, Show.Of(Kind.Share, before.Efficiency.DAubuisson) is { } was
            ? Rich.Say("report.stands-still-until-daubuisson", ("until", ReportWords.Until(analysis)), ("was", was))
            : Phrases.Say("report.stands-still"))
        : new Tile(Phrases.Say("report.efficiency"), Show.Of(Kind.Share, analysis.Efficiency.DAubuisson), Phrases.Say("report.power-lifted-over-power-drawn"));

    private static Measure? Nothing => Show.Of(Kind.Flow, 0d);

    private Tile Peak() => Show.Of(Kind.Pressure, analysis.Pressure.PeakTrue) is { } estimated
        ? new Tile(Phrases.Say("report.peak-pressure"), estimated, Phrases.Say("report.knock-waste-valve-shuts-estimated"))
        : new Tile(Phrases.Say("report.peak-pressure"), Show.Of(Kind.Pressure, analysis.Pressure.PeakMaxPa), Phrases.Say("report.knock-waste-valve-shuts-highest"));

    private static Measure? Bare(Measure? rate) => rate is { } r ? Measure.Same(r.Metric.Value, r.Metric.Margin) : null;
}
