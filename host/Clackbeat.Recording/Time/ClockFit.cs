using Clackbeat.Slopes;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Recording.Time;

/// <summary>How a device's clock runs against another, with what the fit can't know.</summary>
/// <param name="RatePpm">How much faster the device's clock runs [parts per million]; null under three windows.</param>
/// <param name="RateUncertaintyPpm">Expanded uncertainty (95 %) of that; null likewise.</param>
/// <param name="OffsetMicroseconds">Host minus device at <paramref name="AtDeviceMicroseconds"/> [µs].</param>
/// <param name="OffsetUncertaintyMicroseconds">Half-width (95 %) of the offsets about the line [µs].</param>
/// <param name="AtDeviceMicroseconds">Middle of the fit [µs of device time].</param>
public sealed record ClockLine(
    double? RatePpm,
    double? RateUncertaintyPpm,
    double OffsetMicroseconds,
    double OffsetUncertaintyMicroseconds,
    long AtDeviceMicroseconds)
{
    /// <summary>Host time of a device time [µs].</summary>
    public long HostMicroseconds(long deviceMicroseconds)
    {
        double slope = (1 / (1 + ((RatePpm ?? 0) * 1e-6))) - 1;
        return (long)Math.Round(
            deviceMicroseconds + OffsetMicroseconds + (slope * (deviceMicroseconds - AtDeviceMicroseconds)));
    }

    /// <summary>Device time of a host time [µs].</summary>
    public long DeviceMicroseconds(long hostMicroseconds)
    {
        double slope = (1 / (1 + ((RatePpm ?? 0) * 1e-6))) - 1;
        return (long)Math.Round((hostMicroseconds - OffsetMicroseconds + (slope * AtDeviceMicroseconds)) / (1 + slope));
    }
}

/// <summary>
/// Ties a device's clock to the host's by the arrivals of its frames. An arrival can be late, never early, so of each
/// stretch of time only the least late one is kept (the idea of Moon, Skelly and Towsley, "Estimation and removal of
/// clock skew from network delay measurements", INFOCOM 1999, doi 10.1109/INFCOM.1999.749287); through these goes the
/// median of all slopes with its rank interval (see <see cref="PairSlopes"/>), which a tenth of bad points does not bend. Memory is flat: stretches are joined in pairs when there are too many.
/// </summary>
public sealed class ClockFit
{
    private const int MostStretches = 200;

    private readonly List<(long Device, double Offset)> _least = [];
    private long _stretch = 1_000_000;
    private long _first;
    private long _current = -1;

    /// <summary>Takes the device time of the newest sample of a frame, and when the frame arrived [µs].</summary>
    public void Add(long deviceMicroseconds, long hostMicroseconds)
    {
        if (_least.Count == 0)
        {
            _first = deviceMicroseconds;
        }

        double offset = hostMicroseconds - deviceMicroseconds;
        long stretch = (deviceMicroseconds - _first) / _stretch;
        if (stretch == _current)
        {
            if (offset < _least[^1].Offset)
            {
                _least[^1] = (deviceMicroseconds, offset);
            }

            return;
        }

        _current = stretch;
        _least.Add((deviceMicroseconds, offset));
        if (_least.Count > MostStretches)
        {
            JoinPairs();
        }
    }

    /// <summary>The line through what was taken; null before the first.</summary>
    public ClockLine? Line()
    {
        if (_least.Count == 0)
        {
            return null;
        }

        long middle = _least[_least.Count / 2].Device;
        (double slope, double low, double high) = _least.Count < 3 ? default : Slope();
        double[] offsets = [.. _least.Select(p => p.Offset - (slope * (p.Device - middle)))];
        Array.Sort(offsets);
        double median = SortedArrayStatistics.Median(offsets);
        double halfWidth = Math.Max(offsets[(int)(0.975 * (offsets.Length - 1))] - median, median - offsets[(int)(0.025 * (offsets.Length - 1))]);
        return _least.Count < 3
            ? new ClockLine(null, null, median, halfWidth, middle)
            : new ClockLine(((1 / (1 + slope)) - 1) * 1e6, 0.5 * (high - low) * 1e6, median, halfWidth, middle);
    }

    private PairSlopes Slope() => PairSlopes.Of([.. _least.Select(p => (double)p.Device)], [.. _least.Select(p => p.Offset)], 0.95);

    private void JoinPairs()
    {
        _stretch *= 2;
        Dictionary<long, (long Device, double Offset)> joined = [];
        foreach ((long Device, double Offset) point in _least)
        {
            long stretch = (point.Device - _first) / _stretch;
            if (!joined.TryGetValue(stretch, out (long Device, double Offset) other) || point.Offset < other.Offset)
            {
                joined[stretch] = point;
            }
        }

        _least.Clear();
        _least.AddRange(joined.OrderBy(p => p.Key).Select(p => p.Value));
        _current = (_least[^1].Device - _first) / _stretch;
    }
}
