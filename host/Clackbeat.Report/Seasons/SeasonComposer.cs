using System.Globalization;
using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;

namespace Clackbeat.Report.Seasons;

/// <summary>Decides what the season's page holds: pictures first, then upkeep and what to decide.</summary>
internal sealed class SeasonComposer(SeasonStory story, DateTimeOffset made)
{
    private const double Flat = 0.46;

    // So that verdict, three pictures, upkeep and decisions share one sheet of paper.
    private const double PaperFlat = 0.36;

    public ReportContent Make()
    {
        var decisions = SeasonDecisions.Of(story);
        Section?[] sections =
        [
            new Section("pictures", "The season in pictures", [.. Pictures()]) { IsBare = true },
            Upkeep(),
            new Section("decide", "What to decide", [new Bullets(decisions.Count > 0 ? [.. decisions.Select(d => d.Words)] : ["Nothing stands out: go on as now."])]) { IsTight = true },
        ];
        return new ReportContent(story.SiteName, Source(), Verdict(decisions), [.. sections.OfType<Section>()]) { Units = story.Units, Kind = "Season report" };
    }

    private string Source() =>
        $"{SeasonWords.Day(story.From)} to {SeasonWords.Day(story.To)}. Made {made.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)} from the season store.";

    private Verdict Verdict(IReadOnlyList<(Tone Tone, Rich Words)> decisions)
    {
        Tone tone = decisions.Count == 0 ? Tone.Well : decisions.Max(d => d.Tone);
        string label = tone switch
        {
            Tone.Stop => "The pipe needs attention now",
            Tone.Look => "A season with something to decide",
            _ => "A good season",
        };
        return new Verdict(tone, label, SeasonWords.Headline(story), [SeasonWords.Summary(story)]);
    }

    private IEnumerable<Block> Pictures()
    {
        if (story.Months.Count > 0)
        {
            yield return Picture(
                "water", "Water delivered each month, with its ±; white at the foot: days without a record", SeasonWords.WaterAlt(story), Rich.Empty, f => WaterMonthsPlot.Draw(story.Months, f));
        }

        if (story.Efficiency.Count > 1)
        {
            yield return Picture(
                "efficiency", story.LevelM is null ? "Efficiency" : "Efficiency, as it would be at one water level", SeasonWords.EfficiencyAlt(story),
                SeasonWords.EfficiencyCaption(story), f => TrendPlot.Draw("%", story.Efficiency, Marks(), f));
        }

        if (story.Hours.Count > 1)
        {
            yield return Picture(
                "calendar", "Every hour of the season: a column a day, from midnight to midnight", SeasonWords.CalendarAlt(story), Rich.Empty, f => CalendarPlot.Draw(story.Hours, f));
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
            .Select(c => new PlottedMark(c.Day, "change found", ByHand: false)),
    ];

    private Section? Upkeep() => story.Upkeep.Count == 0
        ? null
        : new Section("upkeep", "Upkeep done, and what it brought", [new Bullets([.. story.Upkeep.Select(SeasonWords.Upkeep)])]) { IsTight = true };
}
