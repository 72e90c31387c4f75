using System.CommandLine;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Commands.Trend;

/// <summary>Which bursts or which mark a correction is about, who makes it and why.</summary>
internal sealed class TrendChoice
{
    // As near as a keeper reads a time off a table; of two bursts as near the command asks.
    private static readonly TimeSpan Near = TimeSpan.FromMinutes(1);

    private readonly Option<string?> _burst = new("--burst") { Description = "The burst that begins at this time, to a minute; 'bursts' shows them", HelpName = "TIME" };
    private readonly Option<string?> _source = new("--source") { Description = "All bursts of a recording, by its file's name", HelpName = "FILE" };
    private readonly Option<string?> _mark = new("--mark") { Description = "The mark of this day, or of this time to a minute", HelpName = "TIME" };
    private readonly Option<string> _why = Why();
    private readonly Option<string?> _who = Who();

    /// <summary>Who corrects.</summary>
    public static Option<string?> Who() => new("--who") { Description = "Who corrects; left out: the user of this computer", HelpName = "NAME" };

    /// <summary>Why it is corrected.</summary>
    public static Option<string> Why() => new("--why") { Description = "Why; it is kept in the journal", HelpName = "REASON", Required = true };

    /// <summary>The name given, or the user's.</summary>
    public static string Name(ParseResult line, Option<string?> who) =>
        line.GetValue(who) is { } name && !string.IsNullOrWhiteSpace(name) ? name.Trim() : Environment.UserName;

    /// <summary>The store as one that can be corrected.</summary>
    public static ICorrectableStore Correctable(ISeasonStore store) => store as ICorrectableStore
        ?? throw InputException.Of("trend.cant-correct");

    /// <summary>Adds its options.</summary>
    public void AddTo(Command command)
    {
        foreach (Option option in new Option[] { _burst, _source, _mark, _why, _who })
        {
            command.Add(option);
        }
    }

    /// <summary>Who, when and why.</summary>
    public CorrectionNote Note(ParseResult line) => Note(line, _who, _why);

    /// <summary>Who, when and why, by options of a command's own.</summary>
    public static CorrectionNote Note(ParseResult line, Option<string?> who, Option<string> reason)
    {
        string why = line.GetRequiredValue(reason).Trim();
        return why.Length > 0
            ? new CorrectionNote(Name(line, who), why, DateTimeOffset.UtcNow)
            : throw InputException.Of("trend.why");
    }

    /// <summary>The mark that is meant; null where bursts are.</summary>
    public MaintenanceMark? Mark(ParseResult line, ISeasonStore store, string ram)
    {
        int given = new[] { _burst, _source, _mark }.Count(o => line.GetValue(o) is not null);
        if (given != 1)
        {
            throw InputException.Of("trend.which");
        }

        if (line.GetValue(_mark) is not { } text)
        {
            return null;
        }

        DateTimeOffset at = SeasonTime.Parse("--mark", text)!.Value;
        bool isDay = !text.Contains(':', StringComparison.Ordinal);
        IReadOnlyList<MaintenanceMark> all = store.Marks(ram);
        MaintenanceMark[] near = [.. all.Where(m => isDay ? m.AtUtc >= at && m.AtUtc < at.AddDays(1) : (m.AtUtc - at).Duration() < Near)];
        return near.Length == 1
            ? near[0]
            : throw (near.Length == 0 ? InputException.Of("trend.no-mark", ("listed", Listed(all))) : InputException.Of("trend.several-marks", ("listed", Listed(all))));
    }

    /// <summary>The bursts that are meant, oldest first; at least one.</summary>
    public IReadOnlyList<SeasonBurst> Bursts(ParseResult line, ISeasonStore store, string ram)
    {
        if (line.GetValue(_source) is { } source)
        {
            SeasonBurst[] of = [.. store.Bursts(ram, TimeSpanUtc.All).Where(b => Path.GetFileName(b.Source) == Path.GetFileName(source))];
            return of.Length > 0 ? of : throw InputException.Of("trend.no-source", ("file", source));
        }

        DateTimeOffset at = SeasonTime.Parse("--burst", line.GetValue(_burst))!.Value;
        SeasonBurst[] near = [.. store.Bursts(ram, new TimeSpanUtc(at - Near, at + Near))];
        return near.Length == 1
            ? near
            : throw (near.Length == 0
                ? InputException.Of("trend.no-burst")
                : InputException.Of("trend.several-bursts", ("all", string.Join("; ", near.Select(b => $"{TrendCorrectCommand.Shown(b.StartUtc)} {b.Source}")))));
    }

    private static Fact Listed(IReadOnlyList<MaintenanceMark> all) => all.Count == 0
        ? Fact.Of("trend.no-marks")
        : Fact.Of("trend.marks-are", ("all", string.Join("; ", all.Select(m => $"{TrendCorrectCommand.Shown(m.AtUtc)} {m.Words}"))));
}
