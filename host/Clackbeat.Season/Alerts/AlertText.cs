using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

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
                Phrases.Say("alerts.stopped"),
                reading.Detail == "open"
                    ? Phrases.Say("alerts.ram-been-beating-since-waste", ("since", since))
                    : Phrases.Say("alerts.ram-been-beating-since-body", ("since", since)),
                reading.Detail == "open"
                    ? Phrases.Say("alerts.intake-level-strainer-gate-valve")
                    : Phrases.Say("alerts.waste-valve-push-down-stem")),
            AlertKind.Irregular => (
                Phrases.Say("alerts.beats-unevenly"),
                Phrases.Say("alerts.since-time-beat-beat-varies", ("since", since), ("share", Share(reading.Value)), ("limit", Share(reading.Limit)), ("usual", reading.Usual is { } usual ? Phrases.Say("alerts.usual-for-this-ram", ("share", Share(usual))) : "")),
                Phrases.Say("alerts.waste-valve-grit-bent-stem")),
            AlertKind.OverRating => (
                Phrases.Say("alerts.hits-harder-than-pipe-rated"),
                Phrases.Say("alerts.since-peaks-reach-what-drive", ("since", since), ("peak", Peak(reading.Peak, units)), ("share", Share(reading.Value)), ("limit", Share(reading.Limit))),
                Phrases.Say("alerts.stand-clear-pipe-shut-gate")),
            AlertKind.EfficiencyDown => (
                Phrases.Say("alerts.delivers-less-than-did"),
                Phrases.Say("alerts.since-efficiency-where-when-last", ("since", since), ("share", Share(reading.Value)), ("usual", (reading.UsualIsUpperBound ? Phrases.Say("alerts.most") : "") + Share(reading.Usual)), ("limit", Share(reading.Limit)), ("bounds", Bounds(reading))),
                Phrases.Say("alerts.waste-valve-leak-while-shut")),
            AlertKind.SupplyLow => (
                Phrases.Say("alerts.supply-low"),
                Phrases.Say("alerts.since-supply-head-limit-site", ("since", since), ("head", Head(reading.Value, units)), ("limit", Head(reading.Limit, units)), ("site", Head(reading.Usual, units))),
                Phrases.Say("alerts.intake-strainer-leaves-gate-valve")),
            AlertKind.LoggerSilent => reading.Detail == "no-signal"
                ? (
                    Phrases.Say("alerts.sensor-tells-nothing"),
                    Phrases.Say("alerts.since-every-sample-logger-same", ("since", since)),
                    Phrases.Say("alerts.sensors-plug-cable-then-supply"))
                : (
                    Phrases.Say("alerts.logger-silent"),
                    Phrases.Say("alerts.no-burst-come-since-whether", ("since", since)),
                    Phrases.Say("alerts.power-cable-logger-then-clackbeat")),
            AlertKind.BatteryLow => (
                Phrases.Say("alerts.loggers-battery-nearly-empty"),
                Phrases.Say("alerts.since-loggers-battery-stands-limit", ("since", since), ("volts", Volts(reading.Value)), ("limit", Volts(reading.Limit)), ("cutoff", Volts(reading.Usual))),
                Phrases.Say("alerts.panel-wires-fuse-then-battery")),
            _ => (
                Phrases.Say("alerts.disk-nearly-full"),
                Phrases.Say("alerts.since-there-less-room-than", ("since", since), ("free", Bytes(reading.Value)), ("limit", Bytes(reading.Limit))),
                Phrases.Say("alerts.what-else-fills-disk-free")),
        };
        return new AlertText($"{ram}: {title}", Phrases.Say("alerts.check-first", ("what", what), ("first", first)));
    }

    /// <summary>What others are told of an alert that nobody has acknowledged.</summary>
    /// <param name="title">The alert's title.</param>
    /// <param name="body">Its sentences.</param>
    /// <param name="unseen">For how long nobody has.</param>
    public static AlertText Escalated(string title, string body, TimeSpan unseen) => new(
        Phrases.Say("alerts.escalated-title", ("title", title)),
        Phrases.Say("alerts.escalated", ("hours", unseen.TotalHours), ("text", body)));

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
            AlertKind.Stopped => Phrases.Say("alerts.beats-again"),
            AlertKind.Irregular => Phrases.Say("alerts.beats-evenly-again"),
            AlertKind.OverRating => Phrases.Say("alerts.peaks-within-rating-again"),
            AlertKind.EfficiencyDown => Phrases.Say("alerts.efficiency-back"),
            AlertKind.SupplyLow => Phrases.Say("alerts.supply-back"),
            AlertKind.LoggerSilent => Phrases.Say("alerts.logger-heard-again"),
            AlertKind.BatteryLow => Phrases.Say("alerts.loggers-battery-charged-again"),
            _ => Phrases.Say("alerts.there-room-disk-again"),
        };
        return new AlertText($"{ram}: {title}", Phrases.Say("alerts.alert-raised-ended", ("code", kind.Code()), ("from", Time(sinceUtc, zone)), ("until", Time(clearedUtc, zone))));
    }

    /// <summary>An instant for people, with its offset from UTC.</summary>
    public static string Time(DateTimeOffset utc, TimeZoneInfo zone)
    {
        DateTimeOffset local = TimeZoneInfo.ConvertTime(utc, zone);
        string offset = local.Offset == TimeSpan.Zero ? "UTC" : local.ToString("'UTC'zzz", CultureInfo.InvariantCulture);
        return local.ToString("yyyy-MM-dd HH:mm ", CultureInfo.InvariantCulture) + offset;
    }

    private static string Bounds(AlertReading reading) => (reading.Value, reading.UsualIsUpperBound) switch
    {
        ({ IsUpperBound: true }, true) => Phrases.Say("alerts.both-upper-bounds-since-leaking"),
        ({ IsUpperBound: true }, false) => Phrases.Say("alerts.what-now-upper-bound-since"),
        _ => "",
    };

    private static string Share(SeasonValue? value) => value is { } v
        ? (v.IsUpperBound ? Phrases.Say("alerts.most") : "") + (v.U is { } u ? Phrases.Format(QuantityKind.Share, v.Value, u, Units.Metric) : Share(v.Value))
        : Phrases.Say("alerts.unknown");

    private static string Share(double? value) => value is { } v ? (100 * v).ToString("0.0", Catalogue.Current.Language.Numbers) + " %" : Phrases.Say("alerts.unknown");

    private static string Peak(SeasonValue? value, Units units) => value is { } v
        ? $"{Phrases.Format(QuantityKind.Pressure, v.Value, v.U ?? 0, units)}, "
        : "";

    private static string Head(SeasonValue? value, Units units) => value is { } v
        ? v.U is { } u ? Phrases.Format(QuantityKind.Length, v.Value, u, units) : Head(v.Value, units)
        : Phrases.Say("alerts.unknown");

    private static string Head(double? value, Units units) => value is { } v ? Phrases.Format(QuantityKind.Length, v, units) : Phrases.Say("alerts.unknown");

    private static string Volts(SeasonValue? value) => value is { } v
        ? Volts(v.Value) + (v.U is { } u ? " ± " + Volts(u) : "")
        : Phrases.Say("alerts.unknown");

    private static string Volts(double? value) =>
        value is { } v ? v.ToString("0.0", Catalogue.Current.Language.Numbers) + " V" : Phrases.Say("alerts.unknown");

    private static string Bytes(SeasonValue? value) => Bytes(value?.Value);

    private static string Bytes(double? value) => value is { } v ? (v / 1e9).ToString("0.0", Catalogue.Current.Language.Numbers) + " GB" : Phrases.Say("alerts.unknown");
}
