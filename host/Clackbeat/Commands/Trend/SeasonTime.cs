using System.Globalization;
using Clackbeat.Site;

namespace Clackbeat.Commands.Trend;

/// <summary>Instants as people type them.</summary>
internal static class SeasonTime
{
    /// <summary>Reads an instant: local time unless it names its offset; null for none.</summary>
    /// <param name="option">The option, for the message.</param>
    /// <param name="text">What was typed.</param>
    /// <exception cref="InputException">It is no time.</exception>
    public static DateTimeOffset? Parse(string option, string? text) => text is null
        ? null
        : DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeLocal, out DateTimeOffset time)
            ? time.ToUniversalTime()
            : throw InputException.Of("trend.no-time", ("option", option), ("text", text));
}
