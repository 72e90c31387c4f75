using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>A record as the program would judge it, by a model that has never seen its ram.</summary>
/// <param name="Row">The record.</param>
/// <param name="Probabilities">Calibrated probability of each condition; none where no model was asked.</param>
/// <param name="StageOf">Estimated severity of a condition; null without a baseline.</param>
/// <param name="IsWithheld">Where the program says nothing: too few beats, too few samples, a strange ram.</param>
internal sealed record Judged(StudyRow Row, IReadOnlyDictionary<string, double> Probabilities, Func<string, double>? StageOf, bool IsWithheld)
{
    /// <summary>What the program names, most probable first.</summary>
    public IReadOnlyList<string> Named { get; } = Row.Settled is { } settled ? [settled]
        : IsWithheld ? [] : [.. Probabilities.OrderByDescending(p => p.Value).Select(p => p.Key)];

    /// <summary>Whether a model of the beat judged it.</summary>
    public bool IsByModel => Row.Settled is null && !IsWithheld;

    /// <summary>Whether what is named first is called beginning.</summary>
    public bool IsBeginning => IsByModel && StageOf is not null && Named[0] != Conditions.Healthy && StageOf(Named[0]) < Stage.Beginning;

    /// <summary>Probability of what is named first.</summary>
    public double Stated => IsByModel ? Probabilities[Named[0]] : 1;
}
