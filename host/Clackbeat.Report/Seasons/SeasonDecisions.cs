using Clackbeat.Report.Content;
using Clackbeat.Report.Wording;

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
            yield return (Tone.Stop, Rich.Of($"In the last month the peaks reached {SeasonWords.Percent(story.PeakShare.Value)} of what the drive pipe may bear beat after beat. Stop the ram until someone who knows pipes has looked at it."));
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
            string what = string.Join(" and ", changes.DistinctBy(c => c.Figure).Select(c => $"{c.Figure} from {c.Before} to {c.After}"));
            yield return (Tone.Look, Rich.Of($"About {SeasonWords.Day(changes[0].Day)} something changed ({what}), and no note says why. Ask who was there."));
        }

        foreach (SeasonStretch silence in story.Silences.OrderByDescending(s => s.Hours).Take(2))
        {
            yield return (Tone.Plain, Rich.Of(
                $"Nothing was recorded {SeasonWords.Stretch(silence)}. Look at the logger's battery, cable and card."));
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
        Rich pace = Rich.Of(
            $"The efficiency falls by {SeasonWords.Points(-slope.PerMonth)} points a month ({SeasonWords.Points(-slope.High)} to {SeasonWords.Points(-slope.Low)}) since {SeasonWords.Day(slope.Since)}.");
        SeasonMonth? last = story.Months.LastOrDefault(m => m.DeliveredM3 is not null && m.UnknownH < m.RunningH);
        Rich cost = last is not null && slope.Now > 0
            ? Rich.Of($"After another year at that pace a month like {SeasonWords.Month(last.Month)} brings about {SeasonWords.Water(-slope.PerMonth * 12 / slope.Now * last.DeliveredM3!.Value)} less.")
            : Rich.Empty;
        return pace.Then(cost).Then("Renew the waste valve's rubber, and when?");
    }

    private static Rich Stoppage(SeasonStory story, SeasonStretch stop)
    {
        double meteredH = story.Months.Where(m => m.DeliveredM3 is not null).Sum(m => m.RunningH);
        double perHour = meteredH > 0 ? story.Months.Sum(m => m.DeliveredM3 ?? 0) / meteredH : 0;
        Rich missed = perHour > 0 ? Rich.Of($": about {SeasonWords.Water(perHour * stop.Hours)} not delivered") : Rich.Empty;
        return Rich.Of($"It stood {SeasonWords.Stretch(stop)}{missed}. What would have kept it running: shelter from frost, a cleaner strainer, a sooner look?");
    }
}
