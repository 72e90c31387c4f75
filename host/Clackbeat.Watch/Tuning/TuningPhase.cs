namespace Clackbeat.Watch.Tuning;

/// <summary>Where a tuning session stands; the page shows one step for each.</summary>
public enum TuningPhase
{
    /// <summary>No session is open.</summary>
    Closed,

    /// <summary>Between trials: what to try next is shown, or that it is done.</summary>
    Ready,

    /// <summary>The keeper shuts off the water and lets the pressure out.</summary>
    Safe,

    /// <summary>The keeper sets the valve and starts the ram again.</summary>
    Turn,

    /// <summary>The ram settles at the new setting.</summary>
    Settle,

    /// <summary>The trial is recorded.</summary>
    Record,

    /// <summary>Its figures are worked out.</summary>
    Read,

    /// <summary>The figures are there; the keeper keeps the trial or throws it away.</summary>
    Result,
}

/// <summary>What a keeper asks for on the way through a session.</summary>
public enum TuningAct
{
    /// <summary>Try a setting.</summary>
    Choose,

    /// <summary>The water is shut off and the pressure is out.</summary>
    IsSafe,

    /// <summary>The valve is set and the ram runs.</summary>
    IsSet,

    /// <summary>Record now, settled or not.</summary>
    RecordNow,

    /// <summary>At this setting it won't run.</summary>
    WontRun,

    /// <summary>Break off what goes on.</summary>
    Cancel,

    /// <summary>Keep the trial.</summary>
    Keep,

    /// <summary>Throw the trial away.</summary>
    Reject,

    /// <summary>Throw away a trial that was kept.</summary>
    Drop,

    /// <summary>Close the session; its file stays.</summary>
    Close,
}

/// <summary>How long things take. All of it is time of the samples.</summary>
public sealed record TuningPace
{
    /// <summary>Length of a trial [s].</summary>
    public double TrialS { get; init; } = 60;

    /// <summary>A ram whose valve was turned settles for so long at least [s].</summary>
    public double SettleS { get; init; } = 60;

    /// <summary>Beats of so long a time are compared with those of as long a time before, to see whether it has settled [s].</summary>
    public double CompareS { get; init; } = 20;

    /// <summary>A twin is fitted to each trial, which takes some seconds.</summary>
    public bool FitsTwin { get; init; } = true;
}
