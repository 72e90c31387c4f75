using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Words;

namespace Clackbeat.Report.Seasons;

/// <summary>Decides what the season's page holds: pictures first, then upkeep and what to decide.</summary>
internal sealed class SeasonComposer(SeasonStory story, DateTimeOffset made)
{
    private const double Flat = 0.46;

    // So that verdict, three pictures, upkeep and decisions share one sheet of paper.
    private const double PaperFlat = 0.36;

    public ReportContent Make()
    {
        IReadOnlyList<(Tone Tone, Rich Words)> decisions = SeasonDecisions.Of(story);
        Section?[] sections =
        [
            new Section("pictures", Phrases.Say("season.season-pictures"), [.. Pictures()]) { IsBare = true },
            Upkeep(),
            new Section("decide", Phrases.Say("season.what-decide"), [new Bullets(decisions.Count > 0 ? [.. decisions.Select(d => d.Words)] : [Phrases.Say("season.nothing-stands-out-go-now")])]) { IsTight = true },
        ];
        return new ReportContent(story.SiteName, Source(), Verdict(decisions), [.. sections.OfType<Section>()]) { Units = story.Units, Kind = Phrases.Say("season.season-report") };
    }

    private string Source() =>
        Phrases.Say("season.made-season-store", ("from", SeasonWords.Day(story.From)), ("to", SeasonWords.Day(story.To)), ("made", Dates.Day(DateOnly.FromDateTime(made.DateTime))));

    private Verdict Verdict(IReadOnlyList<(Tone Tone, Rich Words)> decisions)
    {
        Tone tone = decisions.Count == 0 ? Tone.Well : decisions.Max(d => d.Tone);
        string label = tone switch
        {
            Tone.Stop => Phrases.Say("season.pipe-needs-attention-now"),
            Tone.Look => Phrases.Say("season.season-something-decide"),
            _ => Phrases.Say("season.good-season"),
        };
        return new Verdict(tone, label, SeasonWords.Headline(story), [SeasonWords.Summary(story)]);
    }

    private IEnumerable<Block> Pictures()
    {
        if (story.Months.Count > 0)
        {
            yield return Picture(
                "water", Phrases.Say("season.water-delivered-each-month-19"), SeasonWords.WaterAlt(story), Rich.Empty, f => WaterMonthsPlot.Draw(story.Months, f));
        }

        if (story.Efficiency.Count > 1)
        {
            yield return Picture(
                "efficiency", story.LevelM is null ? Phrases.Say("season.efficiency") : Phrases.Say("season.efficiency-would-one-water-level"), SeasonWords.EfficiencyAlt(story),
                SeasonWords.EfficiencyCaption(story), f => TrendPlot.Draw("%", story.Efficiency, Marks(), f));
        }

        if (story.Hours.Count > 1)
        {
            yield return Picture(
                "calendar", Phrases.Say("season.every-hour-season-column-day"), SeasonWords.CalendarAlt(story), Rich.Empty, f => CalendarPlot.Draw(story.Hours, f));
        }
    }

    private static PictureBlock Picture(string id, string title, string alt, Rich caption, Func<Frame, ScottPlot.Plot> draw)
    {
        var drawing = new Drawing(id, title, alt, caption, draw);
        return new PictureBlock(drawing with { Height = Flat, PaperHeight = PaperFlat });
    }

    private List<PlottedMark> Marks() =>
    [
        .. story.Upkeep.Select(u => new PlottedMark(u.Day, u.Words, ByHand: true)),

        // A change on a day with a mark has its name already.
        .. story.Changes.Where(c => c.IsEfficiency && story.Upkeep.All(u => Math.Abs(u.Day.DayNumber - c.Day.DayNumber) > SeasonDecisions.SameDays))
            .Select(c => new PlottedMark(c.Day, Phrases.Say("season.change-found"), ByHand: false)),
    ];

    private Section? Upkeep() => story.Upkeep.Count == 0
        ? null
        : new Section("upkeep", Phrases.Say("season.upkeep-done-what-brought"), [new Bullets([.. story.Upkeep.Select(SeasonWords.Upkeep)])]) { IsTight = true };
}
