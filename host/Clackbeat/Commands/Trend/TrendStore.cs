using System.CommandLine;
using Clackbeat.Season.Store;
using Clackbeat.Site;

namespace Clackbeat.Commands.Trend;

/// <summary>The store and the ram that all commands of trend are about.</summary>
internal sealed class TrendStore
{
    /// <summary>The store's name.</summary>
    public Argument<string?> Name { get; } = new("STORE")
    {
        Description = "Season store, made by 'clackbeat log': a file, or postgres://user@host/database",
        Arity = ArgumentArity.ZeroOrOne,
    };

    /// <summary>The ram's name.</summary>
    public Option<string?> Ram { get; } = new("--ram") { Description = "Which ram, where the store holds several", HelpName = "NAME", Recursive = true };

    /// <summary>Opens the store.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="create">Make it when it is missing.</param>
    public ISeasonStore Open(ParseResult line, bool create = false) => SeasonStores.Open(
        line.GetValue(Name) ?? throw InputException.Of("trend.needs-store"), create);

    /// <summary>The ram that is asked for, or the only one.</summary>
    /// <param name="line">The command line.</param>
    /// <param name="store">The store.</param>
    public string RamOf(ParseResult line, ISeasonStore store)
    {
        string? asked = line.GetValue(Ram);
        IReadOnlyList<string> rams = store.Rams();
        return (asked, rams.Count) switch
        {
            (_, 0) => throw InputException.Of("trend.store-empty"),
            (null, 1) => rams[0],
            ({ } name, _) when rams.Contains(name) => name,
            (null, _) => throw InputException.Of("trend.several-rams", ("rams", string.Join(", ", rams))),
            _ => throw InputException.Of("trend.no-such-ram", ("ram", asked), ("rams", string.Join(", ", rams))),
        };
    }

    /// <summary>All that is told of a figure, days by the clock on the wall.</summary>
    public static Season.Trend.FigureTrend Trend(ISeasonStore store, string ram, SeasonFigure figure) =>
        Season.Trend.FigureTrend.Of(store, ram, figure, TimeSpanUtc.All, TimeZoneInfo.Local);
}
