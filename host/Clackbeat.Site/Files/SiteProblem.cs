using System.Globalization;

namespace Clackbeat.Site.Files;

/// <summary>Something in a site file that can't stand.</summary>
/// <param name="Line">Line in the file, from 1; null when the whole file is meant.</param>
/// <param name="Message">What is wrong and what to write instead.</param>
public sealed record SiteProblem(int? Line, string Message)
{
    /// <summary>Several mistakes of one file as a person reads them.</summary>
    /// <param name="fileName">The file.</param>
    /// <param name="problems">One or more.</param>
    public static string Summary(string fileName, IReadOnlyList<SiteProblem> problems) => problems.Count == 1
        ? $"{fileName}, {problems[0]}"
        : $"{fileName}: {problems.Count} mistakes{string.Concat(problems.Select(p => $"{Environment.NewLine}  {p}"))}";

    /// <summary>Line and message.</summary>
    public override string ToString() =>
        Line is { } line ? string.Create(CultureInfo.InvariantCulture, $"line {line}: {Message}") : Message;
}
