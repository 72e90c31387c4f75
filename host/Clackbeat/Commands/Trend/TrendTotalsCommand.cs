using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using static Clackbeat.Commands.Trend.TrendText;

namespace Clackbeat.Commands.Trend;

/// <summary>trend totals: water, hours run and stood, fatigue used.</summary>
internal static class TrendTotalsCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var daily = new Option<bool>("--daily") { Description = "A row a day instead of a month" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand("totals", "Water delivered, hours run and stood, fatigue used", "trend my-rams.db totals") { daily, json };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            IReadOnlyList<LedgerLine> days = Ledger.WithSilence(Ledger.Days(open, ram, TimeSpanUtc.All, TimeZoneInfo.Local), TimeZoneInfo.Local);
            IReadOnlyList<LedgerLine> lines = line.GetValue(daily) ? days : Ledger.Months(days);
            string form = line.GetValue(daily) ? "yyyy-MM-dd" : "yyyy-MM";
            if (line.GetValue(json))
            {
                JsonOut.Write(session, TrendJson.Totals(ram, lines, form));
            }
            else
            {
                Table(session, lines, form);
            }

            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>The table, a sum under it.</summary>
    public static void Table(Session session, IReadOnlyList<LedgerLine> lines, string form)
    {
        var rows = lines.Select(l => Row(l.From.ToString(form, CultureInfo.InvariantCulture), l)).ToList();
        if (lines.Count > 1)
        {
            rows.Add(Row(Phrases.Say("trend.together"), Ledger.Sum(lines)));
        }

        Layout.Table(session, ["", Phrases.Say("trend.water-m3"), "±", Phrases.Say("trend.ran-h"), Phrases.Say("trend.unmetered-h"), Phrases.Say("trend.stood-h"), Phrases.Say("trend.silent-h"), Phrases.Say("trend.fatigue")], rows);
        Layout.Paragraph(session, TrendText.Coverage);
    }

    // Value and ± end by the rule for all figures.
    private static string[] Water(LedgerLine l)
    {
        string bound = l.IsUpperBound ? Phrases.Say("trend.at-most") : "";
        if (l.DeliveredU <= 0)
        {
            return [bound + Fixed(l.DeliveredM3, 1), ""];
        }

        int places = Rounding.Places(l.DeliveredM3, l.DeliveredU);
        return [bound + Phrases.Number(Rounding.Fixed(l.DeliveredM3, places)), Phrases.Number(Rounding.Margin(l.DeliveredU, places))];
    }

    private static string[] Row(string name, LedgerLine l) =>
    [
        name, .. Water(l), Fixed(l.RunningH, 0), Fixed(l.RunningH - l.MeteredH, 0), Fixed(l.StoppedH, 0), Fixed(l.UnrecordedH, 0),
        l.Fatigue.Central > 0 ? $"{Fixed(100 * l.Fatigue.Central, 2)} %" : Phrases.Say("trend.not-judged"),
    ];
}
