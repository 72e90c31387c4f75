using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Season.Alerts;

/// <summary>Alerts in plain words: what, since when, figure and limit, and what to look at first.</summary>
/// <param name="Title">A line for a subject or a screen.</param>
/// <param name="Body">Sentences.</param>
public sealed record AlertText(string Title, string Body)
{
    /// <summary>Words for an alert that is raised.</summary>
    /// <param name="ram">Name of the ram; the log itself for the disk.</param>
    /// <param name="reading">The reading that raised it.</param>
    /// <param name="sinceUtc">Since when.</param>
    /// <param name="units">Units to show.</param>
    /// <param name="zone">Whose clock the reader reads.</param>
    public static AlertText Raised(string ram, AlertReading reading, DateTimeOffset sinceUtc, Units units, TimeZoneInfo zone)
    {
        string since = Time(sinceUtc, zone);
        (string title, string what, string first) = reading.Kind switch
        {
            AlertKind.Stopped => (
                "it has stopped",
                reading.Detail == "open"
                    ? $"The ram has not been beating since {since}; its waste valve stands open and water runs to waste."
                    : $"The ram has not been beating since {since}; the body stands at the supply's pressure, so its waste valve is held shut.",
                reading.Detail == "open"
                    ? "the intake (level, strainer, gate valve fully open), then the waste valve for debris that holds it open"
                    : "the waste valve: push it down by its stem some ten or twenty times, face and fingers clear, until it goes on by itself; then the intake"),
            AlertKind.Irregular => (
                "it beats unevenly",
                $"Since {since} the time from beat to beat varies by {Share(reading.Value)}; the limit is {Share(reading.Limit)}{(reading.Usual is { } usual ? $", and {Share(usual)} is usual for this ram" : "")}.",
                "the waste valve for grit, a bent stem or swollen rubber; the gate valve shut and the pressure off before it is touched"),
            AlertKind.OverRating => (
                "it hits harder than the pipe is rated for",
                $"Since {since} its peaks reach {Peak(reading.Peak, units)}{Share(reading.Value)} of what the drive pipe may take again and again; the limit is {Share(reading.Limit)}.",
                "stand clear of the pipe, then shorten the stroke or lighten the waste valve as its maker says; a delivery main that is shut or blocked, and an air vessel without air, have the same effect"),
            AlertKind.EfficiencyDown => (
                "it delivers less than it did",
                $"Since {since} its efficiency is {Share(reading.Value)}, where it was {Share(reading.Usual)} when it was last seen well, at the same supply level; the limit is {Share(reading.Limit)}.",
                "the waste valve for a leak while it is shut, then the delivery valve and the air in the vessel"),
            AlertKind.SupplyLow => (
                "its supply is low",
                $"Since {since} the supply head is {Head(reading.Value, units)}; the limit is {Head(reading.Limit, units)}, and the site file says {Head(reading.Usual, units)}.",
                "the intake: strainer, leaves, a gate valve that is half shut, then the stream itself"),
            AlertKind.LoggerSilent => reading.Detail == "no-signal"
                ? (
                    "its sensor tells nothing",
                    $"Since {since} every sample of its logger has the same value: the sensor, its cable or its supply is dead. Whether the ram beats is not known.",
                    "the sensor's plug and cable, then its supply")
                : (
                    "its logger is silent",
                    $"No burst has come since {since}. Whether the ram beats is not known.",
                    "power and cable of the logger, then 'clackbeat ports' on this computer"),
            _ => (
                "the disk is nearly full",
                $"Since {since} there is less room than the log's file asks to be left free ({Bytes(reading.Value)} of {Bytes(reading.Limit)}), and no raw burst is left that may go. Figures are still stored while there is room.",
                "what else fills the disk, and free some of it"),
        };
        return new AlertText($"{ram}: {title}", $"{what} Check first: {first}.");
    }

    /// <summary>Words for an alert that is over.</summary>
    /// <param name="ram">Name of the ram.</param>
    /// <param name="kind">What it was about.</param>
    /// <param name="sinceUtc">Since when it had been so.</param>
    /// <param name="clearedUtc">When it was over.</param>
    /// <param name="zone">Whose clock the reader reads.</param>
    public static AlertText Cleared(string ram, AlertKind kind, DateTimeOffset sinceUtc, DateTimeOffset clearedUtc, TimeZoneInfo zone)
    {
        string title = kind switch
        {
            AlertKind.Stopped => "it beats again",
            AlertKind.Irregular => "it beats evenly again",
            AlertKind.OverRating => "its peaks are within the rating again",
            AlertKind.EfficiencyDown => "its efficiency is back",
            AlertKind.SupplyLow => "its supply is back",
            AlertKind.LoggerSilent => "its logger is heard again",
            _ => "there is room on the disk again",
        };
        return new AlertText($"{ram}: {title}", $"What was told as \"{kind.Code()}\" since {Time(sinceUtc, zone)} is over since {Time(clearedUtc, zone)}.");
    }

    /// <summary>An instant for people, with its offset from UTC.</summary>
    public static string Time(DateTimeOffset utc, TimeZoneInfo zone)
    {
        DateTimeOffset local = TimeZoneInfo.ConvertTime(utc, zone);
        string offset = local.Offset == TimeSpan.Zero ? "UTC" : local.ToString("'UTC'zzz", CultureInfo.InvariantCulture);
        return local.ToString("yyyy-MM-dd HH:mm ", CultureInfo.InvariantCulture) + offset;
    }

    private static string Share(SeasonValue? value) => value is { } v
        ? v.U is { } u ? string.Create(CultureInfo.InvariantCulture, $"{100 * v.Value:0.0} ± {100 * u:0.0} %") : Share(v.Value)
        : "unknown";

    private static string Share(double? value) => value is { } v ? string.Create(CultureInfo.InvariantCulture, $"{100 * v:0.0} %") : "unknown";

    private static string Peak(SeasonValue? value, Units units) => value is { } v
        ? $"{QuantityFormat.Format(QuantityKind.Pressure, v.Value, v.U ?? 0, units)}, "
        : "";

    private static string Head(SeasonValue? value, Units units) => value is { } v
        ? v.U is { } u ? QuantityFormat.Format(QuantityKind.Length, v.Value, u, units) : Head(v.Value, units)
        : "unknown";

    private static string Head(double? value, Units units) => value is { } v ? QuantityFormat.Format(QuantityKind.Length, v, units) : "unknown";

    private static string Bytes(SeasonValue? value) => Bytes(value?.Value);

    private static string Bytes(double? value) => value is { } v ? string.Create(CultureInfo.InvariantCulture, $"{v / 1e9:0.0} GB") : "unknown";
}
