using System.CommandLine;
using System.Globalization;
using Clackbeat.Records.Sources;
using Clackbeat.Site;

namespace Clackbeat.Commands.Capture;

/// <summary>The option --started: when a lone logger was switched on.</summary>
internal static class StartedOption
{
    // A time told to the minute or the hour may be off by half of that, and watches differ.
    private const double MinuteUncertaintyS = 60;
    private const double SecondUncertaintyS = 5;

    public static Option<string?> Create() => new("--started")
    {
        Description = "When the logger was switched on for the first of the new bursts, by your local time; sharpens the calendar",
        HelpName = "2026-05-01T09:00",
    };

    /// <summary>Reads it; null where it wasn't given.</summary>
    public static SwitchedOn? Read(string? text) => text is null ? null
        : DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeLocal, out DateTimeOffset time)
            ? new SwitchedOn(time, text.Count(c => c == ':') >= 2 ? SecondUncertaintyS : MinuteUncertaintyS)
            : throw InputException.Of("option.started", ("text", text));
}
