using System.Globalization;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Report.Seasons;

/// <summary>The sentences of the season's page.</summary>
internal static class SeasonWords
{
    /// <summary>What was delivered.</summary>
    public static Rich Headline(SeasonStory story)
    {
        double delivered = story.Months.Sum(m => m.DeliveredM3 ?? 0);

        // The meter's errors don't average out, so the months' ± add up.
        double u = story.Months.Sum(m => m.DeliveredU);
        return Show.Of(Kind.Volume, new Figure(delivered, u)) is { } water && delivered > 0
            ? Rich.Of($"The ram delivered {water} of water.")
            : "How much water the ram delivered is not known.";
    }

    /// <summary>How long it ran.</summary>
    public static Rich Hours(SeasonStory story)
    {
        double ran = story.Months.Sum(m => m.RunningH);
        double stood = story.Months.Sum(m => m.StoppedH);
        double unknown = Math.Max(0, (24.0 * (story.To.DayNumber - story.From.DayNumber + 1)) - ran - stood);
        Rich known = Rich.Of($"It ran {Percent(ran / Math.Max(ran + stood, 1e-9))} of the time that was recorded and stood for {HoursOf(stood)}.");
        return unknown < 12 ? known : known.Then(Rich.Of($"{Capital(HoursOf(unknown))} were not recorded."));
    }

    /// <summary>How the efficiency went; nothing where days are too few.</summary>
    public static IEnumerable<Rich> Efficiency(SeasonStory story)
    {
        if (story.Slope is not { } slope)
        {
            yield break;
        }

        string so = slope switch
        {
            { High: < 0 } => $"and falls by {Points(-slope.PerMonth)} points a month ({Points(-slope.High)} to {Points(-slope.Low)})",
            { Low: > 0 } => $"and rises by {Points(slope.PerMonth)} points a month ({Points(slope.Low)} to {Points(slope.High)})",
            _ => "and holds as far as can be told",
        };
        yield return $"Its efficiency is now {Points(slope.Now)} % {so}.";
    }

    /// <summary>What the pipe bore; nothing where it wasn't judged.</summary>
    public static IEnumerable<Rich> Pipe(SeasonStory story)
    {
        if (story.PeakShare is { } share and <= 1)
        {
            string used = story.Fatigue is { } f ? $", and the season used {Small(f.Central)} of its fatigue life ({Small(f.Low)} to {Small(f.High)})" : "";
            yield return $"Peaks reach {Percent(share)} of what the drive pipe may bear beat after beat{used}.";
        }
    }

    /// <summary>One piece of upkeep.</summary>
    public static Rich Upkeep(SeasonUpkeep upkeep)
    {
        string head = $"{Day(upkeep.Day)}: {upkeep.Words}.";
        return upkeep.Shift switch
        {
            null => $"{head} Too few days before or after to compare.",
            { Low: > 0 } up => $"{head} The efficiency rose by {Points(up.Central)} points ({Points(up.Low)} to {Points(up.High)}).",
            { High: < 0 } down => $"{head} The efficiency fell by {Points(-down.Central)} points ({Points(-down.High)} to {Points(-down.Low)}).",
            _ => $"{head} No clear difference in the efficiency.",
        };
    }

    /// <summary>How to read the picture of the efficiency.</summary>
    public static Rich EfficiencyCaption(SeasonStory story)
    {
        const string marks = "Green: upkeep noted. Red: a change found with no note. A broken line: no record.";
        return story.LevelM is { } level && Show.Of(Kind.Length, level) is { } head
            ? Rich.Of($"Brought to a supply of {head}, so that a drought doesn't look like wear. {marks}")
            : marks;
    }

    /// <summary>Stands in for the bars.</summary>
    public static string WaterAlt(SeasonStory story) => "Water delivered a month: " + string.Join("; ", story.Months.Select(m =>
        $"{Month(m.Month)} {(m.DeliveredM3 is { } water && Show.Of(Kind.Volume, new Figure(water, m.DeliveredU)) is { } shown ? shown.Metric.ToString() : "no record")}")) + ".";

    /// <summary>Stands in for the curve.</summary>
    public static string EfficiencyAlt(SeasonStory story) =>
        $"Efficiency by day, from {Points(story.Efficiency[0].Value)} % on {Day(story.Efficiency[0].Day)} to {Points(story.Efficiency[^1].Value)} % on {Day(story.Efficiency[^1].Day)}.";

    /// <summary>Stands in for the calendar.</summary>
    public static string CalendarAlt(SeasonStory story) =>
        "When the ram beat and when it stood, hour by hour." + string.Concat(story.Stoppages.Select(s => $" It stood {Stretch(s)}.")) + string.Concat(story.Silences.Select(s => $" No record {Stretch(s)}."));

    /// <summary>A volume to two digits, for a sentence that says "about".</summary>
    public static Measure? Water(double volumeM3) => Show.Of(Kind.Volume, volumeM3, 2);

    /// <summary>A stretch and its length.</summary>
    public static string Stretch(SeasonStretch stretch) => stretch.From == stretch.To
        ? $"on {Day(stretch.From)}, {HoursOf(stretch.Hours)}"
        : $"from {Day(stretch.From)} to {Day(stretch.To)}, {HoursOf(stretch.Hours)}";

    /// <summary>A day.</summary>
    public static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>A month.</summary>
    public static string Month(DateOnly month) => month.ToString("MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>Percentage points, to a tenth.</summary>
    public static string Points(double points) => Digits.Fixed(points, 1);

    /// <summary>A share as a percentage, whole.</summary>
    public static string Percent(double share) => $"{Digits.Fixed(100 * share, 0)} %";

    /// <summary>With a capital letter.</summary>
    public static string Capital(string words) => words.Length == 0 ? words : char.ToUpperInvariant(words[0]) + words[1..];

    private static string HoursOf(double hours) => hours >= 48
        ? $"{Digits.Fixed(hours / 24, hours >= 240 ? 0 : 1)} days"
        : $"{Digits.Fixed(hours, 0)} hours";

    private static string Small(double share) => share < 1e-4 ? "less than 0.01 %" : $"{Digits.Significant(100 * share, 2)} %";
}
