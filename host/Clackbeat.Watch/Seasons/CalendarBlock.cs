using System.Globalization;
using Clackbeat.Report.Html;
using Clackbeat.Season.Trend;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Watch.Seasons;

/// <summary>
/// A table a month, a cell a day. Its shade is the water it gave or what the ram did; a day that nobody recorded stays empty, and
/// one recorded in part says so. A day leads to its bursts.
/// </summary>
/// <param name="days">The days, oldest first, without holes.</param>
/// <param name="ask">What the reader asked for.</param>
internal sealed class CalendarBlock(IReadOnlyList<LedgerLine> days, SeasonAsk ask)
{
    private const int Shades = 5;
    private const int WeekDays = 7;

    // A burst that came a little late leaves a gap of minutes.
    private const double LeastGapH = 2;

    // Ends of the shades but the last: fifths of the range that nearly all days lie in.
    private readonly double[] _steps = Steps([.. days.Where(d => d.MeteredH > 0).Select(d => d.DeliveredM3).Order()]);

    /// <summary>The months.</summary>
    public Markup Write() => Markup.Of(
        $"""
        <p>{Switch(isByState: false)} {Switch(isByState: true)}</p>
        <div class="months">{days.GroupBy(d => new DateOnly(d.From.Year, d.From.Month, 1)).Select(m => Month(m.Key, [.. m]))}</div>
        <p class="legend">{Legend()}</p>
        <p class="small">{Phrases.Say("season-page.calendar-how")}</p>
        """);

    private Markup Switch(bool isByState)
    {
        string words = Phrases.Say(isByState ? "season-page.by-state" : "season-page.by-water");
        return isByState == ask.IsByState
            ? Markup.Of($"<b>{words}</b>")
            : Markup.Of($"<a href=\"{ask.Link("/season", ("days", SeasonBlocks.Days(ask.Days)), ("calendar", isByState ? "state" : "water"))}#calendar\">{words}</a>");
    }

    private Markup Month(DateOnly month, IReadOnlyList<LedgerLine> known)
    {
        var lines = known.ToDictionary(d => d.From);
        int before = ((int)month.DayOfWeek + WeekDays - 1) % WeekDays;
        int length = DateTime.DaysInMonth(month.Year, month.Month);
        string name = Phrases.Say(
            "dates.month", ("month", Catalogue.Current.Say($"dates.name-{month.Month.ToString(CultureInfo.InvariantCulture)}")), ("year", month.Year.ToString(CultureInfo.InvariantCulture)));
        IEnumerable<Markup> weeks = Enumerable.Range(0, (before + length + WeekDays - 1) / WeekDays).Select(week => Markup.Of(
            $"<tr>{Enumerable.Range((WeekDays * week) - before, WeekDays).Select(i => i < 0 || i >= length ? Markup.Trusted("<td></td>") : Day(month.AddDays(i), lines))}</tr>"));
        return Markup.Of(
            $"""
            <table class="month"><caption>{name}</caption>
            <thead><tr>{Enumerable.Range(1, WeekDays).Select(d => Markup.Of($"<th scope=\"col\">{Catalogue.Current.Say($"dates.weekday-{d.ToString(CultureInfo.InvariantCulture)}")}</th>"))}</tr></thead>
            <tbody>{weeks}</tbody></table>

            """);
    }

    private Markup Day(DateOnly day, Dictionary<DateOnly, LedgerLine> lines)
    {
        string number = day.Day.ToString(CultureInfo.InvariantCulture);
        if (!lines.TryGetValue(day, out LedgerLine? line))
        {
            return Markup.Of($"<td>{number}</td>");
        }

        string told = Told(line);
        string part = line.UnrecordedH > LeastGapH && line.UnrecordedH < 24 - LeastGapH ? " part" : "";
        return Markup.Of(
            $"<td class=\"{Shade(line)}{part}\" title=\"{told}\"><a href=\"{ask.Link("/bursts", ("day", Season.Wording.SeasonText.Day(day)))}\">{number}<span class=\"skip\">: {told}</span></a></td>");
    }

    private string Shade(LedgerLine line)
    {
        if (line.RunningH + line.StoppedH <= 0)
        {
            return "gap";
        }

        if (line.RunningH <= 0)
        {
            return "stood";
        }

        if (ask.IsByState)
        {
            return line.StoppedH > 0 ? "some" : "ran";
        }

        return line.MeteredH <= 0 ? "ran" : "w" + _steps.Count(s => line.DeliveredM3 > s).ToString(CultureInfo.InvariantCulture);
    }

    private string Told(LedgerLine line)
    {
        if (line.RunningH + line.StoppedH <= 0)
        {
            return Phrases.Say("season-page.no-record");
        }

        string hours = Phrases.Say("season-page.day-hours", ("ran", Math.Round(line.RunningH, 1)), ("stood", Math.Round(line.StoppedH, 1)), ("unknown", Math.Round(line.UnrecordedH, 1)));
        return line.MeteredH <= 0 ? hours : Phrases.Say("season-page.day-water", ("water", Water(line)), ("hours", hours));
    }

    private string Water(LedgerLine line) =>
        (line.IsUpperBound ? Phrases.Say("trend.at-most") : "") + Phrases.Format(QuantityKind.Volume, line.DeliveredM3, line.DeliveredU, ask.Units);

    private IEnumerable<Markup> Legend()
    {
        static Markup Key(string shade, string words) => Markup.Of($"<span class=\"key\"><span class=\"{shade}\"></span>{words}</span> ");
        string Volume(double m3) => Phrases.Format(QuantityKind.Volume, m3, ask.Units, 2);
        if (ask.IsByState)
        {
            yield return Key("ran", Phrases.Say("season-page.ran-all"));
            yield return Key("some", Phrases.Say("season-page.stood-some"));
        }
        else if (_steps.Length > 0)
        {
            yield return Key("w0", Phrases.Say("season-page.up-to", ("water", Volume(_steps[0]))));
            yield return Key("w2", Phrases.Say("season-page.about", ("water", Volume(0.5 * (_steps[1] + _steps[2])))));
            yield return Key("w4", Phrases.Say("season-page.more-than", ("water", Volume(_steps[^1]))));
        }

        yield return Key("stood", Phrases.Say("season-page.stood"));
        yield return Key("gap", Phrases.Say("season-page.no-record"));
        yield return Key("part", Phrases.Say("season-page.part"));
    }

    private static double[] Steps(double[] sorted)
    {
        if (sorted.Length == 0)
        {
            return [];
        }

        (double low, double high) = (SortedArrayStatistics.Quantile(sorted, 0.02), SortedArrayStatistics.Quantile(sorted, 0.98));
        return [.. Enumerable.Range(1, Shades - 1).Select(i => low + (i * (high - low) / Shades))];
    }
}
