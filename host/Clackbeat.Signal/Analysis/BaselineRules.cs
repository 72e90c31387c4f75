using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;

namespace Clackbeat.Signal.Analysis;

/// <summary>Why a record can't be the baseline of its ram.</summary>
public enum BaselineLack
{
    /// <summary>Too few beats, or none.</summary>
    Beats,

    /// <summary>The sensor can't be trusted.</summary>
    Sensor,

    /// <summary>The ram looks ill, and nobody said that it is well.</summary>
    Ill,
}

/// <summary>What a record must be to stand as its ram's baseline.</summary>
public static class BaselineRules
{
    /// <summary>The scatter of the beats is known within a fifth from some dozen of them.</summary>
    public const int LeastBeats = 15;

    // From here on "healthy" would contradict what the record shows.
    private const double LooksIll = 0.6;

    /// <summary>What it lacks; null where it can be the baseline.</summary>
    /// <param name="analysis">The record.</param>
    /// <param name="isWell">The keeper says that the ram is well, whatever it looks like.</param>
    public static BaselineLack? Lack(RamAnalysis analysis, bool isWell)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        if (analysis.State != RamState.Beating || analysis.Signature is null || analysis.Beats.Count < LeastBeats)
        {
            return BaselineLack.Beats;
        }

        Finding? first = analysis.Diagnosis.Count > 0 ? analysis.Diagnosis[0] : null;
        return first is { Condition: Conditions.SensorFault } ? BaselineLack.Sensor
            : !isWell && first is { Probability: >= LooksIll } && first.Condition != Conditions.Healthy ? BaselineLack.Ill
            : null;
    }
}
