using Clackbeat.Season.Store;
using Clackbeat.Signal.States;

namespace Clackbeat.Season.Trend;

/// <summary>A stretch of time.</summary>
/// <param name="From">Begin.</param>
/// <param name="To">End.</param>
public readonly record struct TimeStretch(DateTimeOffset From, DateTimeOffset To)
{
    /// <summary>Its length [h].</summary>
    public double Hours => (To - From).TotalHours;
}

/// <summary>Times on which the ram stood, and times nobody knows of.</summary>
public static class Stretches
{
    /// <summary>Finds them.</summary>
    /// <param name="states">Bursts, oldest first.</param>
    /// <param name="leastH">Shorter ones are left out [h].</param>
    public static (IReadOnlyList<TimeStretch> Stopped, IReadOnlyList<TimeStretch> Unknown) Of(IReadOnlyList<BurstState> states, double leastH)
    {
        var stopped = new List<TimeStretch>();
        var unknown = new List<TimeStretch>();
        DateTimeOffset? end = null;
        foreach ((BurstState burst, DateTimeOffset from, DateTimeOffset to) in Standing.Of(states))
        {
            if (end < from)
            {
                Append(unknown, end.Value, from);
            }

            if (burst.State != RamState.Beating)
            {
                Append(burst.State == RamState.NoSignal ? unknown : stopped, from, to);
            }

            end = to;
        }

        return ([.. stopped.Where(s => s.Hours >= leastH)], [.. unknown.Where(s => s.Hours >= leastH)]);
    }

    private static void Append(List<TimeStretch> stretches, DateTimeOffset from, DateTimeOffset to)
    {
        if (stretches.Count > 0 && stretches[^1].To == from)
        {
            stretches[^1] = stretches[^1] with { To = to };
        }
        else
        {
            stretches.Add(new TimeStretch(from, to));
        }
    }
}
