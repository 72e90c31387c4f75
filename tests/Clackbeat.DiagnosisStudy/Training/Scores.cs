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
            $"first two {Share(single, j => j.Ranked.Take(2).Contains(j.Row.Conditions[0]))}",
            $"false alarms {Share(well, j => j.Ranked[0] != Conditions.Healthy)}",
            $"pairs in three {Share(pairs, j => j.Row.Conditions.All(j.Ranked.Where(c => c != Conditions.Healthy).Take(3).Contains))}");
    }

    /// <summary>Named first.</summary>
    public static bool FirstRight(Judged judged) => judged.Ranked[0] == (judged.Row.Conditions.Count == 0 ? Conditions.Healthy : judged.Row.Conditions[0]);

    /// <summary>A share as text with what it is of.</summary>
    public static string Share(IReadOnlyCollection<Judged> of, Func<Judged, bool> right) => of.Count == 0 ? "none"
        : string.Create(CultureInfo.InvariantCulture, $"{100.0 * of.Count(right) / of.Count:0.0} % of {of.Count}");
}
