using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Commands.Trend;
using Clackbeat.Frame;
using Clackbeat.Hydraulics;
using Clackbeat.Planning.Demand;
using Clackbeat.Planning.Plans;
using Clackbeat.Report.Planned;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Commands.Plan;

/// <summary><c>plan enough</c>: whether a running ram's water, as its season store has it, covers a need, and the tank between them.</summary>
internal static class EnoughCommand
{
    /// <summary>Creates the command.</summary>
    public static Command Create(Session session)
    {
        var store = new TrendStore();
        var need = new NeedOptions();
        Option<bool> us = PlanOptions.InUsUnits();
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "enough",
            "Say whether a running ram brings enough, from its season store: month by month, dry months, storage tank",
            "plan enough my-rams.db --need \"3000 L/day\"",
            "plan enough my-rams.db --ram \"ram at the mill\" --use person=24 --use dairy-cow=6")
        {
            store.Name, store.Ram, us, json,
        };
        need.AddTo(command);
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            (IReadOnlyList<double> needed, double shortfall, IReadOnlyList<NeedUse> uses) = need.Read(line);
            IReadOnlyList<LedgerLine> days = Ledger.WithSilence(Ledger.Days(open, ram, TimeSpanUtc.All, TimeZoneInfo.Local), TimeZoneInfo.Local);
            var supply = SeasonSupply.Of(days, needed, shortfall);
            if (line.GetValue(json))
            {
                JsonOut.Write(session, Json(ram, supply));
            }
            else
            {
                Write(session, ram, supply, uses, line.GetValue(us) ? Units.Us : Units.Metric);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static void Write(Session session, string ram, SeasonSupply supply, IReadOnlyList<NeedUse> uses, Units units)
    {
        Layout.Paragraph(session, Phrases.Say(
            "plan.season-title", ("ram", ram), ("from", PlanWords.Day(supply.Span.From)), ("until", PlanWords.Day(supply.Span.Until))));
        foreach (string sentence in PlanWords.Say([.. supply.Facts(), .. uses.Select(u => u.Fact)], units))
        {
            Layout.Paragraph(session, sentence);
        }

        session.Out.WriteLine();
        string[] heads = ["plan.month", "plan.recorded", "plan.stood", "plan.delivered-a-day", "plan.needed-a-day", "plan.verdict-enough"];
        Layout.Table(session, [.. heads.Select(h => Phrases.Say(h))], supply.Months.Select(m => Row(m, supply, units)));
    }

    private static IReadOnlyList<string> Row(SeasonMonth month, SeasonSupply supply, Units units)
    {
        double knownH = month.RunningH + month.StoppedH;
        double? need = supply.NeedM3PerS.Count == 12 ? supply.NeedM3PerS[month.Month - 1] : null;
        return
        [
            Catalogue.Current.Say(PlanHeadline.Names([month.Month])[0]),
            Phrases.Say("plan.hours", ("hours", knownH)),
            knownH > 0 ? $"{Math.Round(100 * month.StoppedH / knownH)} %" : "–",
            month.DeliveredM3PerS is { } delivered ? PlanWords.Daily(delivered, units) : Phrases.Say("plan.no-record"),
            need is { } n ? PlanWords.Daily(new Band(n, n), units) : "–",
            need is { } wanted && month.DeliveredM3PerS is { } given ? PlanWords.Enough(given, wanted) : "",
        ];
    }

    private static JsonObject Json(string ram, SeasonSupply supply) => new()
    {
        ["schema"] = "clackbeat.plan-enough/1",
        ["ram"] = ram,
        ["from"] = supply.Span.From.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        ["until"] = supply.Span.Until.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        ["months"] = new JsonArray([.. supply.Months.Select(m => new JsonObject
        {
            ["month"] = m.Month,
            ["recorded_h"] = JsonOut.Number(m.RunningH + m.StoppedH, 1),
            ["stopped_h"] = JsonOut.Number(m.StoppedH, 1),
            ["delivered_l_per_day"] = m.DeliveredM3PerS is { } delivered ? PlanJson.Figure(delivered, PlanJson.LitresPerDay, 1) : null,
        })]),
        ["enough"] = supply.Enough is { } enough ? PlanJson.Of(enough) : null,
        ["facts"] = PlanJson.Of(supply.Facts()),
    };
}
