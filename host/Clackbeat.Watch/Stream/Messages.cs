using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Recordings;
using Clackbeat.Watch.Tuning;

namespace Clackbeat.Watch.Stream;

/// <summary>What stays the same while the watch runs.</summary>
internal sealed record About(
    string Site, SourceKind Source, string SourceName, string Units, double LowPa, double StepPa,
    double SupplyPa, double DeliveryPa, bool MayRecord, string? Baseline)
{
    /// <summary>Where the ram stands, as its keeper writes it.</summary>
    public string? Place { get; init; }

    /// <summary>Who looks after it.</summary>
    public string? Keeper { get; init; }

    /// <summary>Lower end of the sensor's range [Pa gauge].</summary>
    public double SensorLowPa { get; init; }

    /// <summary>Upper end of the sensor's range [Pa gauge].</summary>
    public double SensorHighPa { get; init; }

    /// <summary>The newest minute can be made the baseline.</summary>
    public bool MayKeepBaseline { get; init; }

    /// <summary>The test for leaks can be made from the page.</summary>
    public bool MayCheck { get; init; }
}

/// <summary>New columns of the trace.</summary>
/// <param name="Number">Number of this event; one that is missing was thrown away.</param>
/// <param name="From">Number of the first column.</param>
/// <param name="ColumnS">Length of a column [s].</param>
/// <param name="Steps">Two points a column, base 64.</param>
/// <param name="AgeMs">How old the newest sample was when this was sent, since it reached this computer [ms].</param>
internal sealed record TraceMessage(long Number, long From, double ColumnS, string Steps, double AgeMs);

/// <summary>A whole beat.</summary>
internal sealed record BeatMessage(
    int Number, double ClosureS, double IntervalS, double[] PhasesS, double PeakPa, double LeadS, double ColumnS, string Steps)
{
    /// <summary>The message of a beat.</summary>
    public static BeatMessage Of(LiveBeat beat) => new(
        beat.Number,
        beat.ClosureS,
        beat.IntervalS,
        [beat.DeliveryS, beat.RecoilS, beat.OpenS, beat.ClosingS],
        beat.PeakPa,
        LiveBeat.LeadShare * beat.IntervalS,
        beat.ColumnS,
        SignalScale.Text(beat.Steps));
}

/// <summary>The band of the healthy beat.</summary>
internal sealed record BandMessage(bool IsGiven, double LeadS, double ColumnS, string Low, string High)
{
    /// <summary>The message of a band.</summary>
    public static BandMessage Of(BaselineBand band) => new(
        band.IsGiven, band.LeadS, band.ColumnS, SignalScale.Text(band.Low), SignalScale.Text(band.High));
}

/// <summary>What changes now and then; ages count from the newest sample, and from when it came.</summary>
internal sealed record StatusMessage(
    LiveState State, LinkState Link, double? RestShare, double? SilentS, double AgeS, Health Health, DeskMessage? Desk, TuningClock? Tuning);

/// <summary>The recordings of this watch.</summary>
internal sealed record DeskMessage(bool CanRecord, RecordingMessage? Current, IReadOnlyList<RecordingMessage> Done);

/// <summary>One recording.</summary>
internal sealed record RecordingMessage(int Id, string Name, double LengthS, int Marks, string? Fault)
{
    /// <summary>The message of a recording.</summary>
    public static RecordingMessage Of(DeskRecording recording) => new(
        recording.Id, Path.GetFileName(recording.Path), Math.Floor(recording.LengthS), recording.Marks, recording.Fault);
}

/// <summary>All of it, for a page that opens or fell behind.</summary>
internal sealed record PictureMessage(
    About About, TraceMessage Trace, IReadOnlyList<BeatMessage> Beats, BandMessage? Band, FigureSet? Figures, StatusMessage Status,
    TuningMessage? Tuning, IReadOnlyList<LiveMark> Marks);
