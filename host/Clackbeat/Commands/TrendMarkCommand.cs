using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Site;

namespace Clackbeat.Commands;

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
                throw new InputException("A mark needs words that say what was done, such as \"replaced clack rubber\".");
            }

            using ISeasonStore open = store.Open(line);
            var mark = new MaintenanceMark(store.RamOf(line, open), SeasonTime.Parse("--at", line.GetValue(at)) ?? DateTimeOffset.UtcNow, said);
            open.Add(mark);
            session.Say($"Marked {mark.AtUtc.LocalDateTime:yyyy-MM-dd HH:mm} for {mark.Ram}: {mark.Words}");
            return ExitCode.Done;
        });
        return command;
    }
}
