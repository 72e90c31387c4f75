using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Words;

namespace Clackbeat.Report.Seasons;

/// <summary>What a committee should talk about, each with the figure that says why; nothing where nothing was found.</summary>
internal static class SeasonDecisions
{
    /// <summary>A change this near to a mark is that mark's [days]: as closely as changes are dated.</summary>
    public const int SameDays = 3;

    /// <summary>The points, most urgent first.</summary>
    public static IReadOnlyList<(Tone Tone, Rich Words)> Of(SeasonStory story) =>
        [.. Points(story).OrderByDescending(p => p.Tone)];

    private static IEnumerable<(Tone Tone, Rich Words)> Points(SeasonStory story)
    {
        if (story.PeakShare is > 1)
        {
            yield return (Tone.Stop, Rich.Say("season.last-month-peaks-reached-drive", ("percent", SeasonWords.Percent(story.PeakShare.Value))));
        }

        if (story.Slope is { High: < 0 } slope)
        {
            yield return (Tone.Look, Wear(story, slope));
        }

        foreach (SeasonStretch stop in story.Stoppages.OrderByDescending(s => s.Hours).Take(2))
        {
            yield return (Tone.Look, Stoppage(story, stop));
        }

        foreach (List<SeasonChange> changes in Unexplained(story).Take(3))
        {
            string what = string.Join(Phrases.Say("season.joined-by-and"), changes.DistinctBy(c => c.Figure).Select(c => Phrases.Say("season.from-to", ("figure", c.Figure), ("before", c.Before), ("after", c.After))));
            yield return (Tone.Look, Rich.Say("season.about-something-changed-no-note", ("day", SeasonWords.Day(changes[0].Day)), ("what", what)));
        }

        foreach (SeasonStretch silence in story.Silences.OrderByDescending(s => s.Hours).Take(2))
        {
            yield return (Tone.Plain, Rich.Say("season.nothing-recorded-look-loggers-battery", ("stretch", SeasonWords.Stretch(silence))));
        }
    }

    // A change that several figures tell is one; one that came back to what it was before an upkeep has its note.
    private static IEnumerable<List<SeasonChange>> Unexplained(SeasonStory story)
    {
        var together = new List<SeasonChange>();
        foreach (SeasonChange change in story.Changes.Where(c => story.Upkeep.All(u => Math.Abs(u.Day.DayNumber - c.Day.DayNumber) > SameDays)))
        {
            if (together.Count > 0 && change.Day.DayNumber - together[0].Day.DayNumber > SameDays)
            {
                yield return together;
                together = [];
            }

            together.Add(change);
        }

        if (together.Count > 0)
        {
            yield return together;
        }
    }

    private static Rich Wear(SeasonStory story, SeasonSlope slope)
    {
        var pace = Rich.Say("season.efficiency-falls-points-month-since", ("points", SeasonWords.Points(-slope.PerMonth)), ("low", SeasonWords.Points(-slope.High)), ("high", SeasonWords.Points(-slope.Low)), ("day", SeasonWords.Day(slope.Since)));
        SeasonMonth? last = story.Months.LastOrDefault(m => m.DeliveredM3 is not null && m.UnknownH < m.RunningH);
        Rich cost = last is not null && slope.Now > 0
            ? Rich.Say("season.after-another-year-pace-month", ("month", SeasonWords.Month(last.Month)), ("water", SeasonWords.Water(-slope.PerMonth * 12 / slope.Now * last.DeliveredM3!.Value)))
            : Rich.Empty;
        return pace.Then(cost).Then(Phrases.Say("season.renew-waste-valves-rubber-when"));
    }

    private static Rich Stoppage(SeasonStory story, SeasonStretch stop)
    {
        double meteredH = story.Months.Where(m => m.DeliveredM3 is not null).Sum(m => m.RunningH);
        double perHour = meteredH > 0 ? story.Months.Sum(m => m.DeliveredM3 ?? 0) / meteredH : 0;
        Rich missed = perHour > 0 ? Rich.Say("season.about-delivered", ("water", SeasonWords.Water(perHour * stop.Hours))) : Rich.Empty;
        return Rich.Say("season.stood-what-would-kept-running", ("stretch", SeasonWords.Stretch(stop)), ("missed", missed));
    }
}
