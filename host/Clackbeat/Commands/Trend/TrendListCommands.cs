using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Season.Wording;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend bursts and journal: what is stored, and what was corrected.</summary>
internal static class TrendListCommands
{
    /// <summary>trend bursts.</summary>
    public static ExampleCommand CreateBursts(Session session, TrendStore store)
    {
        var from = new Option<string?>("--from") { Description = "First time shown", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "Up to this time", HelpName = "TIME" };
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand(
            "bursts", "List what is stored, burst by burst", "trend my-rams.db bursts --from 2025-05-14 --to 2025-05-15") { from, to, json };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            var span = new TimeSpanUtc(
                SeasonTime.Parse("--from", line.GetValue(from)) ?? TimeSpanUtc.All.From, SeasonTime.Parse("--to", line.GetValue(to)) ?? TimeSpanUtc.All.To);
            IEnumerable<SeasonBurst> bursts = open.Bursts(ram, span);
            if (line.GetValue(json))
            {
                JsonOut.Write(session, new JsonObject
                {
                    ["schema"] = "clackbeat.bursts/1",
                    ["ram"] = ram,
                    ["bursts"] = new JsonArray([.. bursts.Select(b => new JsonObject
                    {
                        ["start"] = b.StartUtc.UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
                        ["duration_s"] = JsonOut.Number(b.DurationS, 3),
                        ["beats"] = b.Beats.Count,
                        ["source"] = b.Source,
                    })]),
                });
                return ExitCode.Done;
            }

            Layout.Table(session, [Phrases.Say("trend.began"), Phrases.Say("trend.length-s"), Phrases.Say("trend.beats"), Phrases.Say("trend.recording")], bursts.Select(b => (IReadOnlyList<string>)
                [TrendCorrectCommand.Shown(b.StartUtc), b.DurationS.ToString("0", CultureInfo.InvariantCulture), b.Beats.Count.ToString(CultureInfo.InvariantCulture), Path.GetFileName(b.Source)]));
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>trend journal.</summary>
    public static ExampleCommand CreateJournal(Session session, TrendStore store)
    {
        Option<bool> json = CommonOptions.Json();
        var command = new ExampleCommand("journal", "Show what was corrected: when, by whom, what was there, and why", "trend my-rams.db journal") { json };
        command.SetAction(line =>
        {
            using ISeasonStore open = store.Open(line);
            string ram = store.RamOf(line, open);
            IReadOnlyList<JournalEntry> entries = TrendChoice.Correctable(open).Journal(ram);
            if (line.GetValue(json))
            {
                JsonOut.Write(session, new JsonObject { ["schema"] = "clackbeat.journal/1", ["ram"] = ram, ["entries"] = new JsonArray([.. entries.Select(Json)]) });
            }
            else if (entries.Count == 0)
            {
                session.Out.WriteLine(Phrases.Say("trend.nothing-corrected", ("ram", ram)));
            }
            else
            {
                Layout.Bullets(session, entries.Select(JournalText.Of));
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static JsonObject Json(JournalEntry e) => new()
    {
        ["number"] = e.Number,
        ["at"] = e.AtUtc.UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
        ["who"] = e.Who,
        ["action"] = System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(e.Action.ToString()),
        ["was_at"] = e.WasUtc.UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
        ["is_at"] = e.IsUtc?.UtcDateTime.ToString("O", CultureInfo.InvariantCulture),
        ["was"] = e.Was,
        ["becomes"] = e.Becomes,
        ["why"] = e.Why,
    };
}
