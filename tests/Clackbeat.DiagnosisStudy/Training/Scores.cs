using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>How often the judgements are right.</summary>
internal static class Scores
{
    /// <summary>Named first, among the first two, false alarms, both of a pair among the first three.</summary>
    public static string Line(string name, IReadOnlyList<Judged> judged)
    {
        Judged[] single = [.. judged.Where(j => j.Row.Conditions.Count == 1)];
        Judged[] well = [.. judged.Where(j => j.Row.Conditions.Count == 0)];
        Judged[] pairs = [.. judged.Where(j => j.Row.Conditions.Count == 2)];
        return string.Join("; ",
            $"{name}: first {Share(single, FirstRight)}",
            $"mean over conditions {Percent(MeanOverConditions(single))}",
            $"first two {Share(single, AmongTwo)}",
            $"false alarms {Share(well, FalseAlarm)}",
            $"undecided {Share(judged, j => j.Named.Count == 0)}",
            $"pairs in three {Share(pairs, PairInThree)}");
    }

    /// <summary>Named first.</summary>
    public static bool FirstRight(Judged judged) => judged.Named.Take(1).Contains(Truth(judged));

    /// <summary>Named first or second.</summary>
    public static bool AmongTwo(Judged judged) => judged.Named.Take(2).Contains(Truth(judged));

    /// <summary>Something named first that is not "healthy".</summary>
    public static bool FalseAlarm(Judged judged) => judged.Named.Count > 0 && judged.Named[0] != Conditions.Healthy;

    /// <summary>Both of two faults named among the first three.</summary>
    public static bool PairInThree(Judged judged) => judged.Row.Conditions.All(judged.Named.Take(3).Contains);

    /// <summary>Share named first, each condition counting the same (the study holds the leaks twice).</summary>
    public static double MeanOverConditions(IEnumerable<Judged> single) =>
        single.GroupBy(Truth).Select(g => g.Count(FirstRight) / (double)g.Count()).DefaultIfEmpty().Average();

    /// <summary>A share as text with what it is of.</summary>
    public static string Share(IReadOnlyCollection<Judged> of, Func<Judged, bool> right) => of.Count == 0 ? "none"
        : string.Create(CultureInfo.InvariantCulture, $"{Percent(of.Count(right) / (double)of.Count)} of {of.Count}");

    /// <summary>A share as text.</summary>
    public static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0} %");

    private static string Truth(Judged judged) => judged.Row.Conditions.Count == 0 ? Conditions.Healthy : judged.Row.Conditions[0];
}
