using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Files;

/// <summary>Something in a site file that can't stand.</summary>
/// <param name="Line">Line in the file, from 1; null when the whole file is meant.</param>
/// <param name="What">What is wrong and what to write instead.</param>
public sealed record SiteProblem(int? Line, Fact What)
{
    /// <summary>Line and mistake.</summary>
    public Fact Told => Line is { } line ? Fact.Of("site.at-line", ("line", line), ("what", What)) : What;

    /// <summary>All mistakes of one file as a person reads them.</summary>
    /// <param name="fileName">The file.</param>
    /// <param name="problems">One or more.</param>
    public static Fact Summary(string fileName, IReadOnlyList<SiteProblem> problems) => problems.Count == 1
        ? Fact.Of("site.mistake", ("file", fileName), ("mistake", problems[0].Told))
        : Fact.Of(
            "site.mistakes",
            ("file", fileName), ("count", problems.Count), ("mistakes", problems.Select(p => Fact.Of("site.item", ("what", p.Told))).ToArray()));
}
