namespace Clackbeat.Recording.Tests;

/// <summary>Clocks that move when a test says so.</summary>
public sealed class ManualTime : TimeProvider
{
    private long _ticks;

    public DateTimeOffset Utc { get; set; } = new(2026, 5, 1, 9, 0, 0, TimeSpan.Zero);

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => _ticks;

    public override DateTimeOffset GetUtcNow() => Utc;

    public void Pass(TimeSpan time)
    {
        _ticks += time.Ticks;
        Utc += time;
    }
}
