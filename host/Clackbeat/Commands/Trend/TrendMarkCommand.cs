using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend mark: what was done to the ram.</summary>
internal static class TrendMarkCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var words = new Argument<string>("WORDS") { Description = "What was done" };
        var at = new Option<string?>("--at") { Description = "When, local time unless it says otherwise; left out: now", HelpName = "TIME" };
        var command = new ExampleCommand("mark", "Note what was done to the ram, to compare before and after", "trend my-rams.db mark \"replaced clack rubber\" --at 2025-06-12") { words, at };
        command.SetAction(line =>
        {
            string said = line.GetRequiredValue(words).Trim();
            if (said.Length == 0)
            {
                throw InputException.Of("trend.mark-words");
            }

            using ISeasonStore open = store.Open(line);
            var mark = new MaintenanceMark(store.RamOf(line, open), SeasonTime.Parse("--at", line.GetValue(at)) ?? DateTimeOffset.UtcNow, said);
            open.Add(mark);
            session.Say(Phrases.Say("trend.marked", ("at", mark.AtUtc.LocalDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)), ("ram", mark.Ram), ("words", mark.Words)));
            return ExitCode.Done;
        });
        return command;
    }
}
