using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>Series and bursts come in the order of time, so that one pass finds every burst's value.</summary>
/// <param name="points">A series, oldest first.</param>
internal sealed class SeriesFollower(IReadOnlyList<SeasonPoint> points)
{
    private int _next;

    /// <summary>Nothing to find.</summary>
    public bool IsEmpty => points.Count == 0;

    /// <summary>The value at an instant no earlier than the last that was asked for; null where there is none.</summary>
    public SeasonPoint? At(DateTimeOffset time)
    {
        while (_next < points.Count && points[_next].AtUtc < time)
        {
            _next++;
        }

        return _next < points.Count && points[_next].AtUtc == time ? points[_next] : null;
    }
}
