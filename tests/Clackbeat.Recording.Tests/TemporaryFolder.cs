namespace Clackbeat.Recording.Tests;

/// <summary>A folder of its own for a test, gone afterwards.</summary>
public sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clackbeat-rec-");

    public string Root => _folder.FullName;

    public string this[string name] => Path.Combine(_folder.FullName, name);

    public void Dispose() => _folder.Delete(recursive: true);
}

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
