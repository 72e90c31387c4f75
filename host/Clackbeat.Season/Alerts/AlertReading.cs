using Clackbeat.Season.Store;

namespace Clackbeat.Season.Alerts;

/// <summary>Where a figure stands to its limit.</summary>
public enum Standing
{
    /// <summary>Well inside.</summary>
    Within,

    /// <summary>Between the limit and the one that ends an alert: changes nothing.</summary>
    Between,

    /// <summary>Beyond the limit.</summary>
    Beyond,
}

/// <summary>One look at one thing an alert may be about.</summary>
/// <param name="Kind">What.</param>
/// <param name="AtUtc">When.</param>
/// <param name="Standing">Where it stands.</param>
/// <param name="ToRaise">So many readings beyond, one after the other, raise an alert.</param>
/// <param name="ToClear">So many within, one after the other, end it.</param>
public sealed record AlertReading(AlertKind Kind, DateTimeOffset AtUtc, Standing Standing, int ToRaise, int ToClear)
{
    /// <summary>The figure, SI; null where the alert is about none.</summary>
    public SeasonValue? Value { get; init; }

    /// <summary>Its limit, SI; null for none.</summary>
    public double? Limit { get; init; }

    /// <summary>What it usually is, SI; null where that isn't known.</summary>
    public double? Usual { get; init; }

    /// <summary>True where <see cref="Usual"/> and <see cref="Limit"/> rest on days that gave upper bounds.</summary>
    public bool UsualIsUpperBound { get; init; }

    /// <summary>The peak itself, where the figure is its share of the rating [Pa]; null elsewhere.</summary>
    public SeasonValue? Peak { get; init; }

    /// <summary>What else is to be said of it, such as how the ram stopped; a code, empty for nothing.</summary>
    public string Detail { get; init; } = "";
}
