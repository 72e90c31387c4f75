using System.CommandLine;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend merge: two names of one ram become one.</summary>
internal static class TrendMergeCommand
{
    public static ExampleCommand Create(Session session, TrendStore store)
    {
        var name = new Argument<string>("NAME") { Description = "The name that shall go" };
        var into = new Option<string>("--into") { Description = "The name that stays", HelpName = "NAME", Required = true };
        Option<string> why = TrendChoice.Why();
        Option<string?> who = TrendChoice.Who();
        var command = new ExampleCommand(
            "merge", "Join two names of one ram; bursts that are under both count once, and 'undo' parts them again",
            "trend my-rams.db merge \"Mill ram\" --into \"ram at the mill\" --why \"the site file was renamed\"") { name, into, why, who };
        command.SetAction(line =>
        {
            using ISeasonStore opened = store.Open(line);
            (string ram, string stays) = (line.GetRequiredValue(name).Trim(), line.GetRequiredValue(into).Trim());
            TrendChoice.Correctable(opened).Merge(ram, stays, TrendChoice.Note(line, who, why));
            session.Say(Phrases.Say("trend.merged", ("ram", ram), ("into", stays)));
            return ExitCode.Done;
        });
        return command;
    }
}
