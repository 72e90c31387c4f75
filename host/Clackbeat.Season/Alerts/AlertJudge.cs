namespace Clackbeat.Season.Alerts;

/// <summary>How readings of one kind for one ram stand in a row; kept over restarts.</summary>
public sealed record AlertStreak
{
    /// <summary>Readings beyond the limit, one after the other.</summary>
    public int Beyond { get; init; }

    /// <summary>Readings well inside, one after the other.</summary>
    public int Within { get; init; }

    /// <summary>When the row beyond the limit began.</summary>
    public DateTimeOffset? SinceUtc { get; init; }

    /// <summary>An alert is up.</summary>
    public bool IsUp { get; init; }
}

/// <summary>What a reading led to.</summary>
public enum AlertChange
{
    /// <summary>Nothing new.</summary>
    None,

    /// <summary>An alert is to be raised.</summary>
    Raised,

    /// <summary>It is over.</summary>
    Cleared,
}

/// <summary>
/// Hysteresis: an alert is raised by some readings beyond its limit in a row, and over after some well inside in a row. While it
/// is up nothing raises it again, and a figure that hovers at its limit neither raises nor ends anything.
/// </summary>
public static class AlertJudge
{
    /// <summary>Takes a reading.</summary>
    /// <param name="streak">How it stood.</param>
    /// <param name="reading">The reading.</param>
    /// <returns>How it stands now, and what it led to.</returns>
    public static (AlertStreak Streak, AlertChange Change) Take(AlertStreak streak, AlertReading reading)
    {
        bool beyond = reading.Standing == Standing.Beyond;
        bool within = reading.Standing == Standing.Within;
        AlertStreak next = streak with
        {
            Beyond = !beyond ? 0 : streak.IsUp ? streak.Beyond : streak.Beyond + 1,
            Within = within && streak.IsUp ? streak.Within + 1 : 0,
            SinceUtc = beyond ? (streak.IsUp || streak.Beyond > 0 ? streak.SinceUtc ?? reading.AtUtc : reading.AtUtc) : streak.IsUp ? streak.SinceUtc : null,
        };
        if (!next.IsUp && next.Beyond >= reading.ToRaise)
        {
            return (next with { IsUp = true }, AlertChange.Raised);
        }

        return next.IsUp && next.Within >= reading.ToClear
            ? (new AlertStreak(), AlertChange.Cleared)
            : (next, AlertChange.None);
    }
}
