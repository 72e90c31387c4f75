using System.Globalization;

namespace Clackbeat.Site.Files;

/// <summary>Something in a site file that can't stand.</summary>
/// <param name="Line">Line in the file, from 1; null when the whole file is meant.</param>
/// <param name="Message">What is wrong and what to write instead.</param>
public sealed record SiteProblem(int? Line, string Message)
{
    /// <summary>Line and message.</summary>
    public override string ToString() =>
        Line is { } line ? string.Create(CultureInfo.InvariantCulture, $"line {line}: {Message}") : Message;
}
