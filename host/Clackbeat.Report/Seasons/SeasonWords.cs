using System.Globalization;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

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
            ? Rich.Say("season.delivered", ("water", Water(delivered, u).AsUpperBound(story.Months.Any(m => m.IsUpperBound))))
            : Phrases.Say("season.how-much-water-delivered-known");
    }

    /// <summary>Hours, efficiency and pipe in one paragraph.</summary>
    public static Rich Summary(SeasonStory story) =>
        Efficiency(story).Concat(Pipe(story)).Aggregate(Hours(story), (all, next) => all.Then(next));

    private static Rich Hours(SeasonStory story)
    {
        double ran = story.Months.Sum(m => m.RunningH);
        double stood = story.Months.Sum(m => m.StoppedH);
        double unknown = Math.Max(0, (24.0 * (story.To.DayNumber - story.From.DayNumber + 1)) - ran - stood);
        var known = Rich.Say("season.ran-time-recorded-stood", ("percent", Percent(ran / Math.Max(ran + stood, 1e-9))), ("hours_of", HoursOf(stood)));
        return unknown < 12 ? known : known.Then(Rich.Say("season.not-recorded", ("length", ReportWords.Capital(HoursOf(unknown)))));
    }

    private static IEnumerable<Rich> Efficiency(SeasonStory story)
    {
        if (story.Slope is not { } slope)
        {
            yield break;
        }

        string so = slope switch
        {
            { High: < 0 } => Phrases.Say("season.falls-points-month", ("points", Points(-slope.PerMonth)), ("low", Points(-slope.High)), ("high", Points(-slope.Low))),
            { Low: > 0 } => Phrases.Say("season.rises-points-month", ("points", Points(slope.PerMonth)), ("low", Points(slope.Low)), ("high", Points(slope.High))),
            _ => Phrases.Say("season.holds-far-can-told"),
        };
        yield return Phrases.Say("season.efficiency-now", ("now", slope.IsUpperBound ? $"{MeasureText.AtMost} {Points(slope.Now)}" : Points(slope.Now)), ("so", so));
        if (slope.MixesBounds)
        {
            yield return Phrases.Say("season.some-days-tell-efficiency-others");
        }
    }

    private static IEnumerable<Rich> Pipe(SeasonStory story)
    {
        if (story.PeakShare is { } share and <= 1)
        {
            // Where a life is given as so many years or more, its use is known from above only.
            string used = story.Fatigue switch
            {
                null => "",
                { } f when Small(f.High) != Small(f.Low) => Phrases.Say("season.season-used-fatigue-life", ("share", Small(f.Central)), ("low", Small(f.Low)), ("high", Small(f.High))),
                { } f => Phrases.Say("season.season-used-most-fatigue-life", ("share", Small(f.High))),
            };
            yield return Phrases.Say("season.peaks-reach-drive-pipes-limit", ("percent", Percent(share)), ("used", used));
        }
    }

    /// <summary>One piece of upkeep.</summary>
    public static Rich Upkeep(SeasonUpkeep upkeep)
    {
        string head = $"{Day(upkeep.Day)}: {upkeep.Words}.";
        return upkeep.Shift switch
        {
            null when upkeep.MixesBounds => Phrases.Say("season.one-side-efficiency-only-known", ("head", head)),
            null => Phrases.Say("season.too-few-days-before-after", ("head", head)),
            { Low: > 0 } up => Phrases.Say("season.efficiency-rose-points", ("head", head), ("points", Points(up.Central)), ("low", Points(up.Low)), ("high", Points(up.High))),
            { High: < 0 } down => Phrases.Say("season.efficiency-fell-points", ("head", head), ("points", Points(-down.Central)), ("low", Points(-down.High)), ("high", Points(-down.Low))),
            _ => Phrases.Say("season.no-clear-difference-efficiency", ("head", head)),
        };
    }

    /// <summary>How to read the picture of the efficiency.</summary>
    public static Rich EfficiencyCaption(SeasonStory story)
    {
        string marks = Phrases.Say("season.green-upkeep-red-change-without")
            + (story.Efficiency.Any(d => d.IsUpperBound) ? Phrases.Say("season.dashed-most-much-since-leaking") : "");
        return story.LevelM is { } level && Show.Of(Kind.Length, level) is { } head
            ? Rich.Say("season.brought-supply", ("head", head), ("marks", marks))
            : marks;
    }

    /// <summary>Stands in for the bars.</summary>
    public static string WaterAlt(SeasonStory story) => Phrases.Say("season.water-delivered-month") + string.Join("; ", story.Months.Select(m =>
        $"{Month(m.Month)} {(m.DeliveredM3 is { } water ? Water(water, m.DeliveredU).AsUpperBound(m.IsUpperBound).Metric.ToString() : "no record")}")) + ".";

    /// <summary>Stands in for the curve.</summary>
    public static string EfficiencyAlt(SeasonStory story) =>
        Phrases.Say("season.efficiency-day", ("first", Points(story.Efficiency[0].Value)), ("from", Day(story.Efficiency[0].Day)), ("last", Points(story.Efficiency[^1].Value)), ("to", Day(story.Efficiency[^1].Day)));

    /// <summary>Stands in for the calendar.</summary>
    public static string CalendarAlt(SeasonStory story) =>
        Phrases.Say("season.when-ram-beat-when-stood") + string.Concat(story.Stoppages.Select(s => Phrases.Say("season.stood", ("stretch", Stretch(s))))) + string.Concat(story.Silences.Select(s => Phrases.Say("season.no-record", ("stretch", Stretch(s)))));

    /// <summary>A volume to two digits, for a sentence that says "about".</summary>
    public static Measure Water(double volumeM3) => new(Volume(volumeM3, null, 1, "m³"), Volume(volumeM3, null, GallonsPerM3, "gal"));

    /// <summary>A volume with its ±, both ended where the ± says.</summary>
    public static Measure Water(double volumeM3, double uM3) => new(Volume(volumeM3, uM3, 1, "m³"), Volume(volumeM3, uM3, GallonsPerM3, "gal"));

    /// <summary>A stretch and its length.</summary>
    public static string Stretch(SeasonStretch stretch) => stretch.From == stretch.To
        ? Phrases.Say("season.on-one-day", ("day", Day(stretch.From)), ("hours_of", HoursOf(stretch.Hours)))
        : Phrases.Say("season.from-day-to-day", ("from", Day(stretch.From)), ("to", Day(stretch.To)), ("hours_of", HoursOf(stretch.Hours)));

    /// <summary>A day.</summary>
    public static string Day(DateOnly day) => Dates.Day(day);

    /// <summary>A month.</summary>
    public static string Month(DateOnly month) => Dates.Month(month);

    /// <summary>Percentage points, to a tenth.</summary>
    public static string Points(double points) => Digits.Fixed(points, 1);

    /// <summary>A share as a percentage, whole.</summary>
    public static string Percent(double share) => $"{Digits.Fixed(100 * share, 0)} %";

    // Without a ± two digits, for a sentence that says "about"; else by the rule for all figures.
    private static MeasureText Volume(double volumeM3, double? uM3, double factor, string unit)
    {
        double value = volumeM3 * factor;
        double from = Math.Abs((uM3 ?? volumeM3) * factor);
        int places = from <= 0 ? 0
            : uM3 is { } margin ? Rounding.Places(value, margin * factor)
            : 1 - (int)Math.Floor(Math.Log10(from));
        string Rounded(double number) => places <= 0
            ? Digits.Count((long)Math.Round(double.Parse(Rounding.Fixed(number, places), CultureInfo.InvariantCulture)))
            : Digits.Fixed(number, places);
        return new MeasureText(Rounded(value), uM3 is { } u ? Rounded(u * factor) : "", unit);
    }

    private static string HoursOf(double hours) => hours >= 48
        ? Phrases.Say("season.days", ("hours", Digits.Fixed(hours / 24, hours >= 240 ? 0 : 1)))
        : Phrases.Say("season.hours", ("hours", Digits.Fixed(hours, 0)));

    private static string Small(double share) => share < 1e-4 ? Phrases.Say("season.less-than-001") : $"{Digits.Significant(100 * share, 2)} %";
}
