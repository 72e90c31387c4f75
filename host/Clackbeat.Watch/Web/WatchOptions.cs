using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Watch.Checks;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Tuning;

namespace Clackbeat.Watch.Web;

/// <summary>What a live page shows, and to whom.</summary>
public sealed record WatchOptions
{
    /// <summary>The ram.</summary>
    public required RamSite Site { get; init; }

    /// <summary>Where its samples come from.</summary>
    public required LiveSource Source { get; init; }

    /// <summary>Takes what the page records; null where there is nothing to record.</summary>
    public RecordingDesk? Desk { get; init; }

    /// <summary>Folder of tuning sessions; null where there is no ram to tune.</summary>
    public string? TuningFolder { get; init; }

    /// <summary>Turns the settings of a ram that exists only in the computer; null at a ram of iron.</summary>
    public IRamKnob? RamKnob { get; init; }

    /// <summary>How long the steps of a trial take.</summary>
    public TuningPace TuningPace { get; init; } = new();

    /// <summary>The same ram when it was well; null without such a record.</summary>
    public LiveBaseline? Baseline { get; init; }

    /// <summary>Keeps times [s] and gauge pressures [Pa] as the ram's baseline and gives the name of the file; null where nothing can be kept.</summary>
    public Func<double[], double[], string>? SaveBaseline { get; init; }

    /// <summary>Keeps what tests by hand showed; null where no test can be made.</summary>
    public ICheckBook? Checks { get; init; }

    /// <summary>Hands at a ram that exists only in the computer; null at a ram of iron.</summary>
    public IRamHands? RamHands { get; init; }

    /// <summary>Port of the page; 0 takes any that is free.</summary>
    public int Port { get; init; } = 8080;

    /// <summary>Open it to the local network, behind a code.</summary>
    public bool IsOpenToLan { get; init; }

    /// <summary>The record that is replayed, for its report; null where samples are live.</summary>
    public string? ReplayPath { get; init; }

    /// <summary>Writes the report of a recording as one HTML page, in these units and in the language that is spoken while it is called.</summary>
    public Func<string, Units, CancellationToken, byte[]>? ReportOf { get; init; }

    /// <summary>Told of each code that opens the page to one more device.</summary>
    public Action<string>? NewCode { get; init; }

    /// <summary>Told of each change of the link, in words.</summary>
    public Action<LinkState, string>? Told { get; init; }
}
