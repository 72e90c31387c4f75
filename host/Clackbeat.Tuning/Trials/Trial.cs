using Clackbeat.Hydraulics.Rating;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Facts;
using Clackbeat.Words;

namespace Clackbeat.Tuning.Trials;

/// <summary>What one stretch of a trial told. SI units.</summary>
/// <param name="DeliveredM3PerS">Delivered flow.</param>
/// <param name="Efficiency">D'Aubuisson efficiency.</param>
/// <param name="PeakPa">Estimated peak of the beats (95th percentile), gauge.</param>
public readonly record struct Stretch(double DeliveredM3PerS, double Efficiency, double PeakPa);

/// <summary>Why a trial tells no figures.</summary>
public enum TrialLack
{
    /// <summary>It tells them.</summary>
    None,

    /// <summary>The sensor gave no signal.</summary>
    NoSignal,

    /// <summary>The ram stopped, waste valve shut.</summary>
    StoppedShut,

    /// <summary>The ram stopped, waste valve open.</summary>
    StoppedOpen,

    /// <summary>It beat, but its flow or peak could not be told.</summary>
    NoFlow,
}

/// <summary>
/// One setting, tried. The ± of its figures hold against the truth; most of that is the same in every trial of a session
/// (bore, length, span of the sensor), so whether two trials differ is judged by how well the stretches of a trial repeat.
/// </summary>
public sealed record Trial
{
    /// <summary>The setting, in the knob's unit.</summary>
    public required double Setting { get; init; }

    /// <summary>Where it was recorded, and what else the keeper noted.</summary>
    public string Note { get; init; } = "";

    /// <summary>Whether the ram beat to the end and its flow could be told.</summary>
    public required bool Works { get; init; }

    /// <summary>Why not, as data; null when it works, and for a trial read back from a session's file, which keeps the words.</summary>
    public Fact? Reason { get; init; }

    /// <summary>Why not, in English words; empty when it works.</summary>
    public string Why
    {
        get => Reason is { } reason ? Catalogue.Current.Say(reason) : field;
        init;
    } = "";

    /// <summary>The same for programs.</summary>
    public TrialLack Lack { get; init; }

    /// <summary>Delivered flow [m³/s].</summary>
    public Figure? DeliveredM3PerS { get; init; }

    /// <summary>Waste flow [m³/s].</summary>
    public Figure? WasteM3PerS { get; init; }

    /// <summary>D'Aubuisson efficiency.</summary>
    public Figure? Efficiency { get; init; }

    /// <summary>Estimated peak (95th percentile of the beats), gauge [Pa].</summary>
    public Figure? PeakPa { get; init; }

    /// <summary>Beats a minute.</summary>
    public Figure? RatePerMin { get; init; }

    /// <summary>Delivery plateau, gauge [Pa]: the lift and the main, which the waste valve doesn't change.</summary>
    public Figure? DeliveryPa { get; init; }

    /// <summary>Measured wave speed [m/s]: the drive pipe's, which the waste valve doesn't change.</summary>
    public Figure? WaveSpeedMPerS { get; init; }

    /// <summary>Intervals and peaks of the first beats, by which a recording is known again; empty without beats.</summary>
    public BeatPrint Print { get; init; } = BeatPrint.Empty;

    /// <summary>Highest recurring peak the pipe allows, gauge [Pa]; null where it isn't known.</summary>
    public double? AllowablePa { get; init; }

    /// <summary>Whether the pipe bears it.</summary>
    public required PipeVerdict Verdict { get; init; }

    /// <summary>The same figures of parts of the trial, for their scatter.</summary>
    public IReadOnlyList<Stretch> Stretches { get; init; } = [];

    /// <summary>Flows and efficiency are those of the record and of a twin fitted to it, together.</summary>
    public bool HasTwin { get; init; }

    /// <summary>What that twin foretells of other settings; null where another trial's does, or it has no such knob.</summary>
    public TwinCurve? Twin { get; init; }

    /// <summary>What the peak may be at most, with its ± [Pa]; null without a peak.</summary>
    public double? HighestPeakPa => PeakPa is { } peak ? peak.Value + peak.U : null;

    /// <summary>Whether the peak with its ± stays within the pipe's allowable pressure; true where that isn't known.</summary>
    public bool WithinRating => AllowablePa is not { } allowed || HighestPeakPa is not { } peak || peak <= allowed;
}
