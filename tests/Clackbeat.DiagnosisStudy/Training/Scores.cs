using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>How often the judgements are right.</summary>
public static class Scores
{
    /// <summary>Named first, among the first two, false alarms, both of a pair among the first three faults.</summary>
    public static string Line(string name, IReadOnlyList<Judged> judged)
    {
        Judged[] single = [.. judged.Where(j => j.Row.Conditions.Count == 1)];
        Judged[] well = [.. judged.Where(j => j.Row.Conditions.Count == 0)];
        Judged[] pairs = [.. judged.Where(j => j.Row.Conditions.Count == 2)];
        return string.Join("; ",
            $"{name}: first {Share(single, FirstRight)}",
            $"first two {Share(single, AmongTwo)}",
            $"false alarms {Share(well, j => j.Ranked[0] != Conditions.Healthy)}",
            $"pairs in three {Share(pairs, PairInThree)}");
    }

    /// <summary>Named first.</summary>
    public static bool FirstRight(Judged judged) => judged.Ranked[0] == (judged.Row.Conditions.Count == 0 ? Conditions.Healthy : judged.Row.Conditions[0]);

    /// <summary>Named first or second.</summary>
    public static bool AmongTwo(Judged judged) => judged.Ranked.Take(2).Contains(judged.Row.Conditions[0]);

    /// <summary>Both of two faults named among the first three.</summary>
    public static bool PairInThree(Judged judged) => judged.Row.Conditions.All(judged.Ranked.Take(3).Contains);

    /// <summary>A share as text with what it is of.</summary>
    public static string Share(IReadOnlyCollection<Judged> of, Func<Judged, bool> right) => of.Count == 0 ? "none"
        : string.Create(CultureInfo.InvariantCulture, $"{100.0 * of.Count(right) / of.Count:0.0} % of {of.Count}");
}
