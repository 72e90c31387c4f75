using System.Text.Json;

namespace Clackbeat.Season.Alerts;

/// <summary>What an alert is about.</summary>
public enum AlertKind
{
    /// <summary>The ram doesn't beat.</summary>
    Stopped,

    /// <summary>Beats come unevenly.</summary>
    Irregular,

    /// <summary>Peaks exceed what the pipe is rated for.</summary>
    OverRating,

    /// <summary>Less of the drawn water's energy arrives than when the ram was well.</summary>
    EfficiencyDown,

    /// <summary>The supply level is low.</summary>
    SupplyLow,

    /// <summary>Nothing comes from the logger, or nothing that can be a ram.</summary>
    LoggerSilent,

    /// <summary>The logger's battery is nearly at its cut-off.</summary>
    BatteryLow,

    /// <summary>The disk fills up.</summary>
    DiskFilling,
}

/// <summary>Codes of alerts, in messages and files.</summary>
public static class AlertKinds
{
    /// <summary>The code: the name in lower case with hyphens.</summary>
    /// <param name="kind">The kind.</param>
    public static string Code(this AlertKind kind) => JsonNamingPolicy.KebabCaseLower.ConvertName(kind.ToString());
}
