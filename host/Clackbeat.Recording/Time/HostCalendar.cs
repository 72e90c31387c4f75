namespace Clackbeat.Recording.Time;

/// <summary>The host's calendar was set while a recording ran.</summary>
/// <param name="ElapsedMicroseconds">When, in host time since the session began [µs].</param>
/// <param name="StepMicroseconds">By how much; positive sets it forward [µs].</param>
public readonly record struct ClockStep(long ElapsedMicroseconds, long StepMicroseconds);

/// <summary>
/// Follows calendar minus elapsed time of the host. It is constant but for the slow steering that time services do
/// (500 parts per million at most) and for steps, when somebody sets the clock or the machine sleeps.
/// </summary>
public sealed class HostCalendar
{
    // Half a second within a block's second: a thousand times what steering does.
    private const long LeastStep = 500_000;
    private const int MostSteps = 1000;

    // From 1970 to the year 9892: what a date can be made of, with room for the longest run of a logger's clock.
    private const long LatestUtc = 250_000_000_000_000_000;

    private readonly List<ClockStep> _steps = [];
    private long? _offset;

    /// <summary>Calendar minus elapsed time, as it was last seen: the latest setting is the likeliest to be right.</summary>
    public long? OffsetMicroseconds => _offset;

    /// <summary>The steps; no more than a thousand are kept.</summary>
    public IReadOnlyList<ClockStep> Steps => _steps;

    /// <summary>Whether a calendar time [µs since 1970-01-01 UTC] can be written as a date.</summary>
    public static bool IsDate(long utcMicroseconds) => utcMicroseconds is >= 0 and <= LatestUtc;

    /// <summary>Takes both clocks as they stood at one instant [µs]; times that can't be are left out.</summary>
    public void Add(long utcMicroseconds, long elapsedMicroseconds)
    {
        if (!IsDate(utcMicroseconds) || elapsedMicroseconds is < 0 or > LatestUtc)
        {
            return;
        }

        long offset = utcMicroseconds - elapsedMicroseconds;
        if (_offset is long before && Math.Abs(offset - before) >= LeastStep && _steps.Count < MostSteps)
        {
            _steps.Add(new ClockStep(elapsedMicroseconds, offset - before));
        }

        _offset = offset;
    }
}
