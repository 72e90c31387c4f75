using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Remedies;

/// <summary>
/// What a keeper can change on a waste valve. Advice names these by their codes (conditions.toml), so that what it promises can
/// be tried on a virtual ram.
/// </summary>
public enum ValveChange
{
    /// <summary>Less travel between seat and stop.</summary>
    ShorterStroke,

    /// <summary>More travel between seat and stop.</summary>
    LongerStroke,

    /// <summary>Weight taken off the plug.</summary>
    LessWeight,

    /// <summary>Weight laid on the plug.</summary>
    MoreWeight,

    /// <summary>A spring that holds the valve open with less force.</summary>
    WeakerSpring,

    /// <summary>A spring that holds the valve open with more force.</summary>
    StifferSpring,
}

/// <summary>Codes of the changes, and the valve after one.</summary>
public static class ValveChanges
{
    /// <summary>Code of a change as data files and tests write it, such as <c>shorter-stroke</c>.</summary>
    /// <param name="change">The change.</param>
    public static string Code(this ValveChange change) => change switch
    {
        ValveChange.ShorterStroke => "shorter-stroke",
        ValveChange.LongerStroke => "longer-stroke",
        ValveChange.LessWeight => "less-weight",
        ValveChange.MoreWeight => "more-weight",
        ValveChange.WeakerSpring => "weaker-spring",
        ValveChange.StifferSpring => "stiffer-spring",
        _ => throw new ArgumentOutOfRangeException(nameof(change), change, null),
    };

    /// <summary>The change of a code.</summary>
    /// <param name="code">The code.</param>
    /// <exception cref="ArgumentException">No change has this code.</exception>
    public static ValveChange Of(string code) =>
        Enum.GetValues<ValveChange>().Where(c => c.Code() == code).Select(c => (ValveChange?)c).FirstOrDefault()
        ?? throw new ArgumentException($"\"{code}\" is no change of a waste valve.", nameof(code));

    /// <summary>The valve after the change; nothing else about it moves.</summary>
    /// <param name="valve">The valve before.</param>
    /// <param name="change">What is changed.</param>
    /// <param name="share">By how much, as a share of what it was: 0 to below 1.</param>
    public static ValveParameters Changed(this ValveParameters valve, ValveChange change, double share)
    {
        ArgumentNullException.ThrowIfNull(valve);
        ArgumentOutOfRangeException.ThrowIfNegative(share);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(share, 1);
        return change switch
        {
            ValveChange.ShorterStroke => valve with { TravelM = (1 - share) * valve.TravelM },
            ValveChange.LongerStroke => valve with { TravelM = (1 + share) * valve.TravelM },
            ValveChange.LessWeight => Weighted(valve, 1 - share),
            ValveChange.MoreWeight => Weighted(valve, 1 + share),
            ValveChange.WeakerSpring => Sprung(valve, 1 - share),
            ValveChange.StifferSpring => Sprung(valve, 1 + share),
            _ => throw new ArgumentOutOfRangeException(nameof(change), change, null),
        };
    }

    private static ValveParameters Weighted(ValveParameters valve, double factor) =>
        valve with { PreloadN = factor * valve.PreloadN, MassKg = factor * valve.MassKg };

    private static ValveParameters Sprung(ValveParameters valve, double factor) =>
        valve with { PreloadN = factor * valve.PreloadN, SpringNPerM = factor * valve.SpringNPerM };
}
