using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using static Clackbeat.Commands.TrendText;

namespace Clackbeat.Commands;

/// <summary>trend totals: water, hours run and stood, fatigue used.</summary>
internal static class TrendTotalsCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var daily = new Option<bool>("--daily") { Description = "A row a day instead of a month" };
        var json = CommonOptions.Json();
        var command = new ExampleCommand("totals", "Water delivered, hours run and stood, fatigue used", "trend my-rams.db totals") { daily, json };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            IReadOnlyList<LedgerLine> days = Ledger.Days(open, ram, TimeSpanUtc.All, TimeZoneInfo.Local);
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
            rows.Add(Row("together", Ledger.Sum(lines)));
        }

        Layout.Table(session, ["", "Water (m³)", "±", "Ran (h)", "of these unmetered", "Stood (h)", "Fatigue used"], rows);
    }

    private static string[] Row(string name, LedgerLine l) =>
    [
        name, Fixed(l.DeliveredM3, 1), Fixed(l.DeliveredU, 1), Fixed(l.RunningH, 0), Fixed(l.RunningH - l.MeteredH, 0), Fixed(l.StoppedH, 0),
        l.Fatigue.Central > 0 ? $"{Fixed(100 * l.Fatigue.Central, 2)} %" : "not judged",
    ];
}
