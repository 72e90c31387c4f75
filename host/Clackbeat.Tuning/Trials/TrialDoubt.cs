using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Tuning.Trials;

/// <summary>Why a recording may not be a trial of this session.</summary>
public enum TrialDoubtKind
{
    /// <summary>It is the recording of another trial.</summary>
    SameRecording,

    /// <summary>The recording carries the site file of another ram.</summary>
    OtherName,

    /// <summary>The delivery plateau is not that of the other trials.</summary>
    OtherPlateau,

    /// <summary>The wave speed is not that of the other trials.</summary>
    OtherWaveSpeed,

    /// <summary>The beats don't follow the site file's pipe and heads, and those of another trial did.</summary>
    UnlikePipe,

    /// <summary>The plateau is too low for the site file's lift.</summary>
    BelowLift,

    /// <summary>The plateau is more than twice the site file's lift.</summary>
    FarAboveLift,

    /// <summary>The wave speed is higher than the site file's pipe can have.</summary>
    FasterThanPipe,

    /// <summary>The wave speed is far below that of the site file's pipe.</summary>
    SlowerThanPipe,
}

/// <summary>A doubt whether a recording is a trial of this session.</summary>
/// <param name="Kind">What.</param>
/// <param name="Found">What the recording says: a plateau [Pa] or a wave speed [m/s]; 0 where neither is meant.</param>
/// <param name="Known">What the other trials or the site file say, in the same unit.</param>
/// <param name="Trial">Number of the trial it is held against, from 0; null for the site file.</param>
/// <param name="Name">The other ram's name, where one is known.</param>
public sealed record TrialDoubt(TrialDoubtKind Kind, double Found, double Known, int? Trial, string? Name)
{
    /// <summary>The recording itself is the trouble; no insisting makes two trials of one recording.</summary>
    public bool IsFinal => Kind == TrialDoubtKind.SameRecording;
}

/// <summary>
/// Compares a trial with its session by what the waste valve doesn't change: the lift with its main (the delivery plateau) and the
/// drive pipe (the wave speed).
/// </summary>
public static class TrialDoubts
{
    // Beside the main's loss, the air vessel's charge moves the plateau of one ram. Chosen on four rams of an independent model,
    // whose sticking and leaking valves moved it by 2 % at most; that virtual rams tuned over their whole range raise no doubt
    // is a test (VirtualRamTests). The sensor's own error is the same in all trials and cancels.
    private const double PlateauShare = 0.03;

    // A little air comes and goes with every restart.
    private const double AirShare = 0.1;

    // Where a trial tells no flow: none, or as much again as the other.
    private const double MostFlowRatio = 2;

    // No plateau lies below the lift; the lift itself, told from a map or by eye, may be off by a twentieth.
    private const double LiftShare = 0.05;

    // A main that takes as much pressure again as the lift is no main to tune a ram on.
    private const double MostOverLift = 2;

    // Young's modulus of plastics is known to a quarter, walls to a tenth: together some 15 % of the speed, and as much again.
    private const double SpeedShare = 0.3;

    /// <summary>The doubts, the weightiest first; none where all agrees.</summary>
    /// <param name="session">The session.</param>
    /// <param name="site">The ram's site.</param>
    /// <param name="trial">The trial to be added.</param>
    /// <param name="recordedAt">Name of the ram in the recording's own site file; null where it carries none.</param>
    public static IReadOnlyList<TrialDoubt> Of(TuningSession session, RamSite site, Trial trial, string? recordedAt)
    {
        ArgumentNullException.ThrowIfNull(session);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(trial);
        List<TrialDoubt> doubts = [];
        for (int i = 0; i < session.Trials.Count; i++)
        {
            if (session.Trials[i].Print.IsOfSameRecording(trial.Print))
            {
                return [new TrialDoubt(TrialDoubtKind.SameRecording, 0, 0, i, null)];
            }
        }

        if (recordedAt is not null && recordedAt != session.Ram)
        {
            doubts.Add(new TrialDoubt(TrialDoubtKind.OtherName, 0, 0, null, recordedAt));
        }

        // The first trial stands for the session; those after it were held against it.
        int first = session.Trials.ToList().FindIndex(t => t.DeliveryPa is not null);
        doubts.AddRange(first >= 0 ? AgainstTrial(LiftPa(site), session.Trials[first], first, trial) : AgainstSite(site, trial));
        return doubts;
    }

    private static IEnumerable<TrialDoubt> AgainstTrial(double liftPa, Trial known, int index, Trial trial)
    {
        if (trial.DeliveryPa is { } found && known.DeliveryPa is { } other && !FitsMain(liftPa, known, other.Value, trial, found.Value))
        {
            yield return new TrialDoubt(TrialDoubtKind.OtherPlateau, found.Value, other.Value, index, null);
        }

        if (trial.WaveSpeedMPerS is { } speed && known.WaveSpeedMPerS is { } before && AreApart(speed, before, AirShare * before.Value))
        {
            yield return new TrialDoubt(TrialDoubtKind.OtherWaveSpeed, speed.Value, before.Value, index, null);
        }

        if (trial.Lack == TrialLack.NoFlow && known.Works)
        {
            yield return new TrialDoubt(TrialDoubtKind.UnlikePipe, 0, 0, index, null);
        }
    }

    // The plateau is the lift and what the main takes; that grows with the flow, at most as its square (turbulent) and at
    // least in proportion (laminar).
    private static bool FitsMain(double liftPa, Trial known, double knownPa, Trial trial, double foundPa)
    {
        double loss = Math.Max(0, knownPa - liftPa);
        double[] ratios = trial.DeliveredM3PerS is { } flow && known.DeliveredM3PerS is { } before
            ? [flow.Value / before.Value, Math.Pow(flow.Value / before.Value, 2)]
            : [0, MostFlowRatio * MostFlowRatio];
        double margin = PlateauShare * knownPa;
        return foundPa >= knownPa + (loss * (ratios.Min() - 1)) - margin && foundPa <= knownPa + (loss * (ratios.Max() - 1)) + margin;
    }

    private static double LiftPa(RamSite site) => SiteHydraulics.Of(site).PressurePa(site.Delivery.HeadM - site.Sensor.HeightM);

    private static IEnumerable<TrialDoubt> AgainstSite(RamSite site, Trial trial)
    {
        var hydraulics = SiteHydraulics.Of(site);
        double lift = LiftPa(site);
        if (trial.DeliveryPa is { } plateau && plateau.Value + plateau.U < (1 - LiftShare) * lift)
        {
            yield return new TrialDoubt(TrialDoubtKind.BelowLift, plateau.Value, lift, null, null);
        }
        else if (trial.DeliveryPa is { } high && high.Value - high.U > MostOverLift * lift)
        {
            yield return new TrialDoubt(TrialDoubtKind.FarAboveLift, high.Value, lift, null, null);
        }

        double pipe = hydraulics.WaveSpeedMPerS;
        if (trial.WaveSpeedMPerS is not { } speed || hydraulics.WaveSpeedSource == WaveSpeedSource.Assumed)
        {
            yield break;
        }

        if (speed.Value - speed.U > (1 + SpeedShare) * pipe)
        {
            yield return new TrialDoubt(TrialDoubtKind.FasterThanPipe, speed.Value, pipe, null, null);
        }
        else if (speed.Value + speed.U < (1 - SpeedShare) * pipe)
        {
            yield return new TrialDoubt(TrialDoubtKind.SlowerThanPipe, speed.Value, pipe, null, null);
        }
    }

    private static bool AreApart(Figure a, Figure b, double allowed) =>
        Math.Abs(a.Value - b.Value) > Math.Sqrt((a.U * a.U) + (b.U * b.U)) + allowed;
}
