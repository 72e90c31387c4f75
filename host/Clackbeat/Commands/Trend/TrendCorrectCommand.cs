using System.CommandLine;
using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Commands.Trend;

/// <summary>trend correct, remove and undo: mends what was stored wrongly, with what was there kept in the journal.</summary>
internal static class TrendCorrectCommand
{
    /// <summary>trend correct.</summary>
    public static ExampleCommand CreateCorrect(Session session, TrendStore store)
    {
        var which = new TrendChoice();
        var to = new Option<string?>("--to") { Description = $"The right time: of the burst's first sample, of the first of several bursts, or of the mark; local time unless it says otherwise, such as 2025-05-14T10:00", HelpName = "TIME" };
        var words = new Option<string?>("--words") { Description = "The right words of the mark", HelpName = "WORDS" };
        var command = new ExampleCommand(
            "correct", "Correct the start of bursts, or a mark; what was there is kept in the journal",
            "trend my-rams.db correct --burst 2025-05-14T10:00 --to 2025-05-14T12:00 --why \"the logger's clock was on winter time\"",
            "trend my-rams.db correct --source first-week.cbrec --to 2025-05-14T12:00 --why \"--start was mistyped\"",
            "trend my-rams.db correct --mark 2025-06-12 --words \"replaced clack rubber\" --why \"it was the clack\"");
        which.AddTo(command);
        command.Add(to);
        command.Add(words);
        command.SetAction(line =>
        {
            using ISeasonStore opened = store.Open(line);
            (ICorrectableStore open, string ram) = (TrendChoice.Correctable(opened), store.RamOf(line, opened));
            DateTimeOffset? right = SeasonTime.Parse("--to", line.GetValue(to));
            string? said = line.GetValue(words)?.Trim();
            if (which.Mark(line, open, ram) is { } mark)
            {
                MaintenanceMark becomes = mark with { AtUtc = right ?? mark.AtUtc, Words = string.IsNullOrEmpty(said) ? mark.Words : said };
                if (becomes == mark)
                {
                    throw InputException.Of("trend.mark-becomes");
                }

                open.Change(mark, becomes, which.Note(line));
                session.Say(Phrases.Say("trend.mark-is-now", ("at", Shown(mark.AtUtc)), ("words", mark.Words), ("to", Shown(becomes.AtUtc)), ("becomes", becomes.Words)));
                return ExitCode.Done;
            }

            IReadOnlyList<SeasonBurst> bursts = which.Bursts(line, open, ram);
            if (right is null || said is not null)
            {
                throw said is null ? InputException.Of("trend.began-when") : InputException.Of("trend.words-of-mark");
            }

            TimeSpan by = right.Value - bursts[0].StartUtc;
            open.Move(bursts, by, which.Note(line));
            session.Say(Phrases.Say("trend.bursts-moved", ("bursts", bursts.Count), ("by", by.ToString("c", CultureInfo.InvariantCulture)), ("from", Shown(bursts[0].StartUtc)), ("to", Shown(right.Value))));
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>trend remove.</summary>
    public static ExampleCommand CreateRemove(Session session, TrendStore store)
    {
        var which = new TrendChoice();
        var command = new ExampleCommand(
            "remove", "Take bursts or a mark out; they are kept aside, and 'undo' brings them back",
            "trend my-rams.db remove --source valve-tests.cbrec --why \"the waste valve was held by hand\"",
            "trend my-rams.db remove --mark 2025-06-12 --why \"that was the other ram\"");
        which.AddTo(command);
        command.SetAction(line =>
        {
            using ISeasonStore opened = store.Open(line);
            (ICorrectableStore open, string ram) = (TrendChoice.Correctable(opened), store.RamOf(line, opened));
            if (which.Mark(line, open, ram) is { } mark)
            {
                open.Change(mark, null, which.Note(line));
                session.Say(Phrases.Say("trend.mark-removed", ("at", Shown(mark.AtUtc)), ("words", mark.Words)));
                return ExitCode.Done;
            }

            IReadOnlyList<SeasonBurst> bursts = which.Bursts(line, open, ram);
            open.Remove(bursts, which.Note(line));
            session.Say(Phrases.Say("trend.bursts-removed", ("bursts", bursts.Count), ("from", Shown(bursts[0].StartUtc)), ("to", Shown(bursts[^1].StartUtc))));
            return ExitCode.Done;
        });
        return command;
    }

    /// <summary>trend undo.</summary>
    public static ExampleCommand CreateUndo(Session session, TrendStore store)
    {
        var number = new Argument<long>("NUMBER") { Description = "Number of the correction, as 'journal' shows it" };
        Option<string?> who = TrendChoice.Who();
        var why = new Option<string?>("--why") { Description = "Why", HelpName = "REASON" };
        var command = new ExampleCommand("undo", "Undo a correction", "trend my-rams.db undo 3") { number, who, why };
        command.SetAction(line =>
        {
            using ISeasonStore opened = store.Open(line);
            long entry = line.GetValue(number);
            TrendChoice.Correctable(opened).Undo(
                store.RamOf(line, opened), entry, new CorrectionNote(TrendChoice.Name(line, who), line.GetValue(why) ?? "undone", DateTimeOffset.UtcNow));
            session.Say(Phrases.Say("trend.correction-undone", ("number", entry)));
            return ExitCode.Done;
        });
        return command;
    }

    internal static string Shown(DateTimeOffset time) => time.LocalDateTime.ToString("yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
}
