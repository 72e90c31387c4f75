using System.IO.Ports;
using Clackbeat.Recording.Link;
using Clackbeat.Season.Store;

namespace Clackbeat.Unattended.Surroundings;

/// <summary>What an unattended log finds around it; a test makes it of other things.</summary>
public sealed record LogWorld
{
    /// <summary>Opens the season store.</summary>
    public required Func<string, ISeasonStore> OpenStore { get; init; }

    /// <summary>Version of the program, for recordings.</summary>
    public required string Program { get; init; }

    /// <summary>Calendar and unbroken clock.</summary>
    public TimeProvider Time { get; init; } = TimeProvider.System;

    /// <summary>A line by its port and speed.</summary>
    public Func<string, int, ILineOpener> Line { get; init; } = (port, baud) => new SerialLine(port, baud);

    /// <summary>Names of all serial ports.</summary>
    public Func<IReadOnlyList<string>> Ports { get; init; } = SerialPort.GetPortNames;

    /// <summary>Bytes free on the disk of a path.</summary>
    public Func<string, long> FreeBytes { get; init; } = path => new DriveInfo(path).AvailableFreeSpace;

    /// <summary>How often, by the wall's clock, the log looks at what no burst tells: silence, the disk, a clock that was set.</summary>
    public TimeSpan LookEvery { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>Waits.</summary>
    public Action<TimeSpan, CancellationToken> Wait { get; init; } = (span, stop) => stop.WaitHandle.WaitOne(span);
}

/// <summary>Something a keeper should know.</summary>
/// <param name="Ram">Which ram; null for the log itself.</param>
/// <param name="Words">What.</param>
/// <param name="IsTrouble">It needs somebody, or weakens what is logged.</param>
public readonly record struct LogNews(string? Ram, string Words, bool IsTrouble);
