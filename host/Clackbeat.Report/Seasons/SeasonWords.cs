using System.Globalization;
using Clackbeat.Report.Wording;

namespace Clackbeat.Report.Seasons;

/// <summary>The sentences of the season's page.</summary>
internal static class SeasonWords
{
    // 1 US gallon is 3.785411784 L: NIST SP 811 (2008), appendix B.
    private const double GallonsPerM3 = 1 / 3.785411784e-3;

    /// <summary>What was delivered.</summary>
    public static Rich Headline(SeasonStory story)
    {
        double delivered = story.Months.Sum(m => m.DeliveredM3 ?? 0);

        // The meter's errors don't average out, so the months' ± add up.
        double u = story.Months.Sum(m => m.DeliveredU);
        return delivered > 0
            ? Rich.Of($"It delivered {Water(delivered, u)}.")
            : "How much water it delivered is not known.";
    }

    /// <summary>Hours, efficiency and pipe in one paragraph.</summary>
    public static Rich Summary(SeasonStory story) =>
        Efficiency(story).Concat(Pipe(story)).Aggregate(Hours(story), (all, next) => all.Then(next));

    private static Rich Hours(SeasonStory story)
    {
        double ran = story.Months.Sum(m => m.RunningH);
        double stood = story.Months.Sum(m => m.StoppedH);
        double unknown = Math.Max(0, (24.0 * (story.To.DayNumber - story.From.DayNumber + 1)) - ran - stood);
        Rich known = Rich.Of($"It ran {Percent(ran / Math.Max(ran + stood, 1e-9))} of the time that was recorded and stood for {HoursOf(stood)}.");
        return unknown < 12 ? known : known.Then(Rich.Of($"{Words.Capital(HoursOf(unknown))} were not recorded."));
    }

    private static IEnumerable<Rich> Efficiency(SeasonStory story)
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

    private static IEnumerable<Rich> Pipe(SeasonStory story)
    {
        if (story.PeakShare is { } share and <= 1)
        {
            // Where a life is given as so many years or more, its use is known from above only.
            string used = story.Fatigue switch
            {
                null => "",
                { } f when Small(f.High) != Small(f.Low) => $", and the season used {Small(f.Central)} of its fatigue life ({Small(f.Low)} to {Small(f.High)})",
                { } f => $", and the season used at most {Small(f.High)} of its fatigue life",
            };
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
        const string marks = "Green: upkeep. Red: a change without a note. A gap: no record.";
        return story.LevelM is { } level && Show.Of(Kind.Length, level) is { } head
            ? Rich.Of($"Brought to a supply of {head}. {marks}")
            : marks;
    }

    /// <summary>Stands in for the bars.</summary>
    public static string WaterAlt(SeasonStory story) => "Water delivered a month: " + string.Join("; ", story.Months.Select(m =>
        $"{Month(m.Month)} {(m.DeliveredM3 is { } water ? Water(water, m.DeliveredU).Metric.ToString() : "no record")}")) + ".";

    /// <summary>Stands in for the curve.</summary>
    public static string EfficiencyAlt(SeasonStory story) =>
        $"Efficiency by day, from {Points(story.Efficiency[0].Value)} % on {Day(story.Efficiency[0].Day)} to {Points(story.Efficiency[^1].Value)} % on {Day(story.Efficiency[^1].Day)}.";

    /// <summary>Stands in for the calendar.</summary>
    public static string CalendarAlt(SeasonStory story) =>
        "When the ram beat and when it stood, hour by hour." + string.Concat(story.Stoppages.Select(s => $" It stood {Stretch(s)}.")) + string.Concat(story.Silences.Select(s => $" No record {Stretch(s)}."));

    /// <summary>A volume to two digits, for a sentence that says "about".</summary>
    public static Measure Water(double volumeM3) => new(Volume(volumeM3, null, 1, "m³"), Volume(volumeM3, null, GallonsPerM3, "gal"));

    /// <summary>A volume with its ±, both ended where the ± says.</summary>
    public static Measure Water(double volumeM3, double uM3) => new(Volume(volumeM3, uM3, 1, "m³"), Volume(volumeM3, uM3, GallonsPerM3, "gal"));

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

    // Two digits of the ±, and the value to the same place (JCGM 100:2008, 7.2.6).
    private static MeasureText Volume(double volumeM3, double? uM3, double factor, string unit)
    {
        double value = volumeM3 * factor;
        double from = Math.Abs((uM3 ?? volumeM3) * factor);
        double step = from > 0 ? Math.Pow(10, Math.Floor(Math.Log10(from)) - 1) : 1;
        string Rounded(double number) => step >= 1
            ? Digits.Count((long)(Math.Round(number / step) * step))
            : Digits.Fixed(number, Math.Clamp((int)-Math.Log10(step), 0, 6));
        return new MeasureText(Rounded(value), uM3 is { } u ? Rounded(u * factor) : "", unit);
    }

    private static string HoursOf(double hours) => hours >= 48
        ? $"{Digits.Fixed(hours / 24, hours >= 240 ? 0 : 1)} days"
        : $"{Digits.Fixed(hours, 0)} hours";

    private static string Small(double share) => share < 1e-4 ? "less than 0.01 %" : $"{Digits.Significant(100 * share, 2)} %";
}
