namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A calendar and an unbroken clock that move only when a test, or a logger on the bench, moves them.</summary>
internal sealed class BenchClock(DateTimeOffset start) : TimeProvider
{
    private readonly Lock _gate = new();
    private long _ticks;
    private long _stepTicks;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => Interlocked.Read(ref _ticks);

    public override DateTimeOffset GetUtcNow() => start.AddTicks(Interlocked.Read(ref _ticks) + Interlocked.Read(ref _stepTicks));

    /// <summary>Lines that move it.</summary>
    public int Lines { get; set; }

    /// <summary>Called whenever time has passed, one call at a time.</summary>
    public Action? Moved { get; set; }

    public void Advance(TimeSpan span)
    {
        Interlocked.Add(ref _ticks, span.Ticks);
        lock (_gate)
        {
            Moved?.Invoke();
        }
    }

    /// <summary>Somebody sets the calendar; the unbroken clock doesn't notice.</summary>
    public void Set(TimeSpan by) => Interlocked.Add(ref _stepTicks, by.Ticks);
}
