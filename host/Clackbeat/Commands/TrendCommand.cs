using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Report.Plots;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site;

namespace Clackbeat.Commands;

/// <summary>trend: what a season store tells, in tables and pictures, and marks of what was done to the ram.</summary>
internal static class TrendCommand
{
    private static readonly SeasonFigure[] Shown =
    [
        SeasonFigure.Rate, SeasonFigure.Irregularity, SeasonFigure.PeakTrue, SeasonFigure.DeliveryPressure, SeasonFigure.Delivered,
        SeasonFigure.Efficiency, SeasonFigure.SupplyHead, SeasonFigure.RatingUse,
    ];

    public static Command Create(Session session)
    {
        var store = new Argument<string?>("STORE") { Description = "Season store, made by 'clackbeat log'", Arity = ArgumentArity.ZeroOrOne };
        var ram = new Option<string?>("--ram") { Description = "Which ram, where the store holds several", HelpName = "NAME", Recursive = true };
        var demo = new Option<bool>("--demo") { Description = "Make a virtual year and show what is told of it" };
        var folder = new Option<string>("--out") { Description = "Folder for the demo's store, truth and pictures", HelpName = "DIR", DefaultValueFactory = _ => "clackbeat-season" };
        var command = new ExampleCommand(
            "trend",
            "Show how the ram did through weeks and years: trends, changes, water, hours",
            "trend my-rams.db", "trend my-rams.db plot --figure efficiency --to efficiency.svg", "trend my-rams.db mark \"replaced clack rubber\"", "trend --demo")
        {
            store, ram, demo, folder,
        };
        command.SetAction(line =>
        {
            if (line.GetValue(demo))
            {
                return TrendDemo.Run(session, line.GetRequiredValue(folder));
            }

            using SqliteSeasonStore open = Open(line.GetValue(store));
            Overview(session, open, RamOf(open, line.GetValue(ram)));
            return ExitCode.Done;
        });
        command.Add(Plot(session, store, ram));
        command.Add(Totals(session, store, ram));
        command.Add(Mark(session, store, ram));
        command.Add(Forecasts(session, store, ram));
        return command;
    }

    /// <summary>The tables of one ram.</summary>
    public static void Overview(Session session, ISeasonStore store, string ram)
    {
        var trends = Shown.Select(f => Trend(store, ram, f)).Where(t => t.Days.Count > 0).ToList();
        if (trends.Count == 0)
        {
            throw new InputException($"The store holds no figure of {ram} yet.");
        }

        session.Out.WriteLine($"{ram}: {Day(trends.Min(t => t.Measured[0].Day))} to {Day(trends.Max(t => t.Measured[^1].Day))}");
        Layout.Table(session, ["Figure", "First week", "Last week", "Trend a month since", ""], trends.Select(Row));

        // What doesn't show in the digits a keeper reads is no news.
        var changes = trends.SelectMany(t => t.Changes.Where(c => IsSeen(t, c)).Select(c => Sentence(t, c))).ToList();
        session.Out.WriteLine(changes.Count == 0 ? "No change was found." : "Changes found:");
        Layout.Bullets(session, changes);
        WriteMarks(session, store, ram);
        if (trends.Any(t => t.Correction is not null))
        {
            Layout.Paragraph(session, "Trends and changes are at one supply level, so that a drought doesn't look like wear; first and last week are as measured.");
        }
    }

    /// <summary>The picture of one figure.</summary>
    public static string Picture(ISeasonStore store, string ram, SeasonFigure figure)
    {
        FigureTrend trend = Trend(store, ram, figure);
        if (trend.Measured.Count < 2)
        {
            throw new InputException($"The store holds fewer than two days of {figure.Code()} of {ram}: nothing to draw yet.");
        }

        SeasonUnit unit = SeasonUnit.Of(figure);
        return TrendPlot.Svg(
            unit.Label,
            [.. trend.Measured.Select(d => new PlottedDay(d.Day, d.Value * unit.Factor, d.Low * unit.Factor, d.High * unit.Factor))],
            [
                .. store.Marks(ram).Select(m => new PlottedMark(DateOnly.FromDateTime(m.AtUtc.LocalDateTime), m.Words, ByHand: true)),
                .. trend.Changes.Select(c => new PlottedMark(DateOnly.FromDayNumber((int)c.At), "change found", ByHand: false)),
            ]);
    }

    private static FigureTrend Trend(ISeasonStore store, string ram, SeasonFigure figure) =>
        FigureTrend.Of(store, ram, figure, TimeSpanUtc.All, TimeZoneInfo.Local);

    private static string[] Row(FigureTrend trend)
    {
        SeasonUnit unit = SeasonUnit.Of(trend.Figure);
        string Week(IEnumerable<DayValue> days) => unit.Number(days.Average(d => d.Value));
        string slope = trend.Recent is { } line
            ? $"{unit.Number(line.Slope * 30)} ({unit.Number(line.Low * 30)} to {unit.Number(line.High * 30)})"
            : "too few days";
        return [unit.Label, Week(trend.Measured.Take(7)), Week(trend.Measured.TakeLast(7)), slope, trend.RecentFrom is { } from ? Day(from) : ""];
    }

    private static bool IsSeen(FigureTrend trend, ChangePoint change)
    {
        SeasonUnit unit = SeasonUnit.Of(trend.Figure);
        return unit.Text(change.Before) != unit.Text(change.After);
    }

    private static string Sentence(FigureTrend trend, ChangePoint change)
    {
        SeasonUnit unit = SeasonUnit.Of(trend.Figure);
        return $"{Day(change.At)} (between {Day(change.Earliest)} and {Day(change.Latest)}): {unit.Name} from {unit.Text(change.Before)} to {unit.Text(change.After)}";
    }

    private static void WriteMarks(Session session, ISeasonStore store, string ram)
    {
        IReadOnlyList<MaintenanceMark> marks = store.Marks(ram);
        if (marks.Count == 0)
        {
            return;
        }

        session.Out.WriteLine("Marks, and the efficiency in the 30 days after against before, at one supply level:");
        FigureTrend efficiency = Trend(store, ram, SeasonFigure.Efficiency);
        Layout.Bullets(session, marks.Select(mark =>
        {
            var day = DateOnly.FromDateTime(mark.AtUtc.LocalDateTime);
            SeasonUnit unit = SeasonUnit.Of(SeasonFigure.Efficiency);
            return Comparison.Around(efficiency.Days, day) is { } compared
                ? $"{Day(day)} {mark.Words}: {unit.Text(compared.Before)} to {unit.Text(compared.After)}, a shift of {unit.Text(compared.Shift)} ({unit.Number(compared.Low)} to {unit.Number(compared.High)})"
                : $"{Day(day)} {mark.Words}: too few days with an efficiency to compare";
        }));
    }

    private static ExampleCommand Plot(Session session, Argument<string?> store, Option<string?> ram)
    {
        var figure = new Option<string>("--figure") { Description = $"Which: {string.Join(", ", SeasonFigures.Codes)}", DefaultValueFactory = _ => "efficiency", HelpName = "FIGURE" };
        var file = new Option<string>("--to") { Description = "Picture to write", HelpName = "FILE.svg", Required = true };
        var overwrite = CommonOptions.Overwrite();
        var command = new ExampleCommand("plot", "Draw a figure over the season", "trend my-rams.db plot --figure rate --to rate.svg") { figure, file, overwrite };
        command.SetAction(line =>
        {
            using SqliteSeasonStore open = Open(line.GetValue(store));
            string picture = Picture(open, RamOf(open, line.GetValue(ram)), SeasonUnit.Parse(line.GetRequiredValue(figure)));
            OutputFile.WriteText(line.GetRequiredValue(file), picture, line.GetValue(overwrite));
            session.Say($"Wrote {line.GetRequiredValue(file)}");
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand Totals(Session session, Argument<string?> store, Option<string?> ram)
    {
        var daily = new Option<bool>("--daily") { Description = "A row a day instead of a month" };
        var command = new ExampleCommand("totals", "Water delivered, hours run and stood, fatigue used", "trend my-rams.db totals") { daily };
        command.SetAction(line =>
        {
            using SqliteSeasonStore open = Open(line.GetValue(store));
            IReadOnlyList<LedgerLine> days = Ledger.Days(open, RamOf(open, line.GetValue(ram)), TimeSpanUtc.All, TimeZoneInfo.Local);
            TotalsTable(session, line.GetValue(daily) ? days : Ledger.Months(days), line.GetValue(daily) ? "yyyy-MM-dd" : "yyyy-MM");
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>The table of water and hours.</summary>
    public static void TotalsTable(Session session, IReadOnlyList<LedgerLine> lines, string form) => Layout.Table(
        session,
        ["", "Water (m³)", "±", "Ran (h)", "of these unmetered", "Stood (h)", "Fatigue used"],
        lines.Select(l => new[]
        {
            l.From.ToString(form, CultureInfo.InvariantCulture), Fixed(l.DeliveredM3, 1), Fixed(l.DeliveredU, 1), Fixed(l.RunningH, 0),
            Fixed(l.RunningH - l.MeteredH, 0), Fixed(l.StoppedH, 0), l.Fatigue.Central > 0 ? $"{Fixed(100 * l.Fatigue.Central, 2)} %" : "not judged",
        }));

    private static ExampleCommand Mark(Session session, Argument<string?> store, Option<string?> ram)
    {
        var words = new Argument<string>("WORDS") { Description = "What was done" };
        var at = new Option<string?>("--at") { Description = "When, local time unless it says otherwise; left out: now", HelpName = "TIME" };
        var command = new ExampleCommand("mark", "Note what was done to the ram, to compare before and after", "trend my-rams.db mark \"replaced clack rubber\" --at 2025-06-12") { words, at };
        command.SetAction(line =>
        {
            string said = line.GetRequiredValue(words).Trim();
            if (said.Length == 0)
            {
                throw new InputException("A mark needs words that say what was done, such as \"replaced clack rubber\".");
            }

            using SqliteSeasonStore open = Open(line.GetValue(store));
            var mark = new MaintenanceMark(RamOf(open, line.GetValue(ram)), SeasonTime.Parse("--at", line.GetValue(at)) ?? DateTimeOffset.UtcNow, said);
            open.Add(mark);
            session.Say($"Marked {mark.AtUtc.LocalDateTime:yyyy-MM-dd HH:mm} for {mark.Ram}: {mark.Words}");
            return ExitCode.Done;
        });
        return command;
    }

    private static ExampleCommand Forecasts(Session session, Argument<string?> store, Option<string?> ram)
    {
        var figure = new Option<string>("--figure") { Description = "Which figure", HelpName = "FIGURE", DefaultValueFactory = _ => "efficiency" };
        var limit = new Option<double>("--limit") { Description = "The limit, in the unit the tables show", HelpName = "NUMBER", Required = true };
        var command = new ExampleCommand("forecast", "When a figure will cross a limit if it goes on as since its last change", "trend my-rams.db forecast --figure efficiency --limit 40") { figure, limit };
        command.SetAction(line =>
        {
            using SqliteSeasonStore open = Open(line.GetValue(store));
            SeasonFigure asked = SeasonUnit.Parse(line.GetRequiredValue(figure));
            FigureTrend trend = Trend(open, RamOf(open, line.GetValue(ram)), asked);
            SeasonUnit unit = SeasonUnit.Of(asked);
            Forecast? forecast = Forecast.Of(trend.Days, trend.Changes, line.GetValue(limit) / unit.Factor);
            session.Out.WriteLine(forecast switch
            {
                null => "Too few days since the last change for a forecast.",
                { Day: { } day } => $"{unit.Name} reaches {unit.Text(line.GetValue(limit) / unit.Factor)} about {Day(day)}, between {Say(forecast.Earliest)} and {Say(forecast.Latest)} (95 %), if it goes on as since its last change.",
                _ => $"{unit.Name} does not move towards {unit.Text(line.GetValue(limit) / unit.Factor)}{(forecast.Earliest is { } soonest ? $"; within the uncertainty it could from {Day(soonest)} on" : "")}.",
            });
            return ExitCode.Done;
        });
        return command;
    }

    private static string Say(DateOnly? day) => day is { } d ? Day(d) : "never";

    private static string Day(double dayNumber) => Day(DateOnly.FromDayNumber((int)dayNumber));

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Fixed(double value, int decimals) => value.ToString("F" + decimals, CultureInfo.InvariantCulture);

    private static SqliteSeasonStore Open(string? path) => SqliteSeasonStore.Open(
        path ?? throw new InputException("trend needs a season store: clackbeat trend STORE, or clackbeat trend --demo."), create: false);

    private static string RamOf(SqliteSeasonStore store, string? asked)
    {
        IReadOnlyList<string> rams = store.Rams();
        return (asked, rams.Count) switch
        {
            (_, 0) => throw new InputException("This season store is empty. 'clackbeat log' fills it."),
            (null, 1) => rams[0],
            ({ } name, _) when rams.Contains(name) => name,
            _ => throw new InputException($"{(asked is null ? "The store holds several rams." : $"The store holds no ram named {asked}.")} Choose with --ram from: {string.Join(", ", rams)}."),
        };
    }
}
