using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Watch.Tuning;

/// <summary>Everything a page is told of tuning, at one instant. It is replaced as a whole with each change.</summary>
internal sealed record TuningState
{
    /// <summary>Rises with each change; a wish that was made on an older one is refused.</summary>
    public int Revision { get; init; }

    public TuningPhase Phase { get; init; }

    /// <summary>Rises each time the ram is to settle anew, so that who watches it begins anew too.</summary>
    public int Run { get; init; }

    /// <summary>The valve was turned before this trial, so the ram has to settle.</summary>
    public bool WasTurned { get; init; }

    /// <summary>Name of the session's file.</summary>
    public string? File { get; init; }

    public TuningSession? Session { get; init; }

    /// <summary>What the trials so far say; null without a session.</summary>
    public Findings? Found { get; init; }

    /// <summary>Setting of the trial that goes on.</summary>
    public double? Setting { get; init; }

    /// <summary>Setting at which the valve stands; null where that isn't certain.</summary>
    public double? Standing { get; init; }

    /// <summary>The trial that was just made and not yet kept.</summary>
    public Trial? Result { get; init; }

    /// <summary>What befell the trial, for the page to say.</summary>
    public TuningProblem? Notice { get; init; }

    /// <summary>Sessions to go on with, while none is open.</summary>
    public IReadOnlyList<KeptSession> Kept { get; init; } = [];
}

/// <summary>What the trials of a session say.</summary>
internal sealed record Findings(Advice Advice, IReadOnlyList<TrialPair> Pairs, TuningPicture Picture)
{
    public static Findings Of(TuningSession session) => new(
        NextSetting.Of(session), TrialDifferences.Of(session), TuningPicture.Of(session));
}

/// <summary>How far a step has come. Times of the samples.</summary>
/// <param name="BeatingS">The ram has beaten for so long at this setting [s].</param>
/// <param name="NeedsS">It has to beat so long at least before it can have settled [s].</param>
/// <param name="StandsS">It has stood still for so long [s].</param>
/// <param name="LeftS">So much of the trial is left [s].</param>
/// <param name="LengthS">Length of a trial [s].</param>
internal sealed record TuningClock(double BeatingS, double NeedsS, double StandsS, double LeftS, double LengthS);
