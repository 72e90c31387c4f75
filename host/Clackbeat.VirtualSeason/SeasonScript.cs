namespace Clackbeat.VirtualSeason;

/// <summary>
/// What happens in the virtual year, by the day (UTC, fractions allowed). All of it is invented; it stands in one place so
/// that the truth beside the store and the bursts in it can't differ.
/// </summary>
public sealed record SeasonScript
{
    /// <summary>First day.</summary>
    public DateOnly Start { get; init; } = new(2025, 1, 1);

    /// <summary>Days.</summary>
    public int Days { get; init; } = 365;

    /// <summary>From burst to burst.</summary>
    public TimeSpan Every { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>Length of a burst [s].</summary>
    public double BurstS { get; init; } = 60;

    /// <summary>Wear on the first day, as severity of a leak past the waste valve's rubber.</summary>
    public double WearAtStart { get; init; } = 0.15;

    /// <summary>Growth of wear a year.</summary>
    public double WearPerYear { get; init; } = 0.6;

    /// <summary>Day on which something lodges in the waste valve; null for never.</summary>
    public DateOnly? Stuck { get; init; } = new(2025, 5, 14);

    /// <summary>Day on which it is freed.</summary>
    public DateOnly Freed { get; init; } = new(2025, 5, 20);

    /// <summary>Day on which the rubber is replaced; null for never.</summary>
    public DateOnly? Replaced { get; init; } = new(2025, 6, 12);

    /// <summary>First day of the logger's silence; null for none.</summary>
    public DateOnly? Silent { get; init; } = new(2025, 8, 8);

    /// <summary>First day it is heard again.</summary>
    public DateOnly HeardAgain { get; init; } = new(2025, 8, 15);

    /// <summary>First day of the freeze that stops the ram; null for none.</summary>
    public DateOnly? Frozen { get; init; } = new(2025, 12, 3);

    /// <summary>Day on which it is started again.</summary>
    public DateOnly Thawed { get; init; } = new(2025, 12, 10);

    /// <summary>A year in which nothing but wear and weather happens, with a rubber that lasts it: past 0.6 a ram hardly beats.</summary>
    public static SeasonScript Quiet { get; } = new() { Stuck = null, Replaced = null, Silent = null, Frozen = null, WearPerYear = 0.44 };

    /// <summary>Wear on a day.</summary>
    /// <param name="day">The day.</param>
    public double WearOn(DateOnly day) => day >= Replaced
        ? WearPerYear * (day.DayNumber - Replaced.Value.DayNumber) / 365.0
        : WearAtStart + (WearPerYear * (day.DayNumber - Start.DayNumber) / 365.0);

    /// <summary>Whether the waste valve hangs on a day.</summary>
    /// <param name="day">The day.</param>
    public bool IsSticking(DateOnly day) => day >= Stuck && day < Freed;

    /// <summary>Whether the logger is silent on a day.</summary>
    /// <param name="day">The day.</param>
    public bool IsSilent(DateOnly day) => day >= Silent && day < HeardAgain;

    /// <summary>Whether the ram is frozen on a day.</summary>
    /// <param name="day">The day.</param>
    public bool IsFrozen(DateOnly day) => day >= Frozen && day < Thawed;
}
