using Clackbeat.Season.Schedule;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Unattended.Settings;

/// <summary>All that an unattended log does, as its file or the command line says.</summary>
public sealed record LogSettings
{
    /// <summary>The season store.</summary>
    public required string Store { get; init; }

    /// <summary>Folder of the raw bursts and of what the log must remember; one log at a time works in it.</summary>
    public required string Folder { get; init; }

    /// <summary>The rams.</summary>
    public required IReadOnlyList<RamSettings> Rams { get; init; }

    /// <summary>From burst to burst.</summary>
    public TimeSpan Every { get; init; } = TimeSpan.FromMinutes(15);

    /// <summary>Length of a burst.</summary>
    public TimeSpan Length { get; init; } = TimeSpan.FromSeconds(60);

    /// <summary>Units of messages.</summary>
    public Units Units { get; init; } = Units.Metric;

    /// <summary>Ports on which a logger may be looked for that isn't where it was, with * and ? in file names; empty for all of the system's.</summary>
    public IReadOnlyList<string> LookIn { get; init; } = [];

    /// <summary>What is done between bursts.</summary>
    public BetweenSettings Between { get; init; } = new();

    /// <summary>Room for raw bursts.</summary>
    public DiskSettings Disk { get; init; } = new();

    /// <summary>Whom to tell, and when.</summary>
    public AlertSettings Alerts { get; init; } = new();

    /// <summary>Another computer that is to have the bursts too; null for none.</summary>
    public ForwardSettings? Forward { get; init; }
}

/// <summary>One ram of the log.</summary>
/// <param name="SitePath">Its site file; travels in every recording.</param>
/// <param name="Site">What that file says.</param>
/// <param name="Port">The port on which its logger is looked for first; null for none.</param>
/// <param name="Logger">Id of its logger; null for the one that is met on the port.</param>
/// <param name="Baud">Speed of the line [bit/s].</param>
public sealed record RamSettings(string SitePath, RamSite Site, string? Port, string? Logger, int Baud);

/// <summary>The look between bursts.</summary>
public sealed record BetweenSettings
{
    /// <summary>Whether the running ram is watched at all.</summary>
    public bool Watch { get; init; } = true;

    /// <summary>Most extra bursts in a day (UTC) and ram.</summary>
    public int ExtraADay { get; init; } = 24;

    /// <summary>What counts as a change.</summary>
    public ChangeLimits Limits { get; init; } = new(0.08, 0.15);
}

/// <summary>Room for raw bursts.</summary>
public sealed record DiskSettings
{
    /// <summary>Most that all raw bursts together may take [bytes].</summary>
    public long MostBytes { get; init; } = 8_000_000_000;

    /// <summary>What must stay free on that disk [bytes].</summary>
    public long LeastFreeBytes { get; init; } = 1_000_000_000;

    /// <summary>How long a ram's first raw bursts are precious: the picture of it when it was well [days].</summary>
    public int BaselineDays { get; init; } = 14;

    /// <summary>How far from an alert or a mark a raw burst is precious.</summary>
    public TimeSpan AroundAlert { get; init; } = TimeSpan.FromHours(2);
}
