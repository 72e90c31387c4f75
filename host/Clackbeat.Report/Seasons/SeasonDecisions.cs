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

        foreach (SeasonChange change in story.Changes.Where(c => story.Upkeep.All(u => Math.Abs(u.Day.DayNumber - c.Day.DayNumber) > SameDays)).Take(3))
        {
            yield return (Tone.Look, Rich.Of(
                $"{SeasonWords.Capital(change.Figure)} went from {change.Before} to {change.After} about {SeasonWords.Day(change.Day)}, and no note says why. Ask who was there, and note it."));
        }

        foreach (SeasonStretch silence in story.Silences.OrderByDescending(s => s.Hours).Take(2))
        {
            yield return (Tone.Plain, Rich.Of(
                $"Nothing was recorded {SeasonWords.Stretch(silence)}. Nobody knows what the ram did then: look at the logger's battery, cable and card."));
        }
    }

    private static Rich Wear(SeasonStory story, SeasonSlope slope)
    {
        Rich pace = Rich.Of(
            $"The efficiency falls by {SeasonWords.Points(-slope.PerMonth)} points a month ({SeasonWords.Points(-slope.High)} to {SeasonWords.Points(-slope.Low)}) since {SeasonWords.Day(slope.Since)}.");
        SeasonMonth? last = story.Months.LastOrDefault(m => m.DeliveredM3 is not null && m.UnknownH < m.RunningH);
        Measure? loss = last is null ? null : SeasonWords.Water(-slope.PerMonth * 12 / slope.Now * last.DeliveredM3!.Value);
        Rich cost = loss is { } water && slope.Now > 0
            ? Rich.Of($"After another year at that pace a month like {SeasonWords.Month(last!.Month)} brings about {water} less.")
            : Rich.Empty;
        return pace.Then(cost).Then("Decide whether the waste valve's rubber is to be renewed, and when.");
    }

    private static Rich Stoppage(SeasonStory story, SeasonStretch stop)
    {
        double meteredH = story.Months.Where(m => m.DeliveredM3 is not null).Sum(m => m.RunningH);
        double perHour = meteredH > 0 ? story.Months.Sum(m => m.DeliveredM3 ?? 0) / meteredH : 0;
        Rich missed = perHour > 0 && SeasonWords.Water(perHour * stop.Hours) is { } water
            ? Rich.Of($"At the season's usual flow that is about {water} not delivered.")
            : Rich.Empty;
        return Rich.Of($"It stood {SeasonWords.Stretch(stop)}.").Then(missed).Then("Decide what would have kept it running: shelter from frost, a cleaner strainer, more water, or a sooner look.");
    }
}
