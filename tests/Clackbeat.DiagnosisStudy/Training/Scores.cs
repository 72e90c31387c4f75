using System.Globalization;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>How often the judgements are right.</summary>
internal static class Scores
{
    /// <summary>From here on a fault is more than beginning.</summary>
    public const double Moderate = 0.4;

    /// <summary>Named first, among the first two, false alarms, both of a pair among the first three.</summary>
    public static string Line(string name, IReadOnlyList<Judged> judged, bool changes)
    {
        Judged[] single = [.. judged.Where(j => j.Row.Conditions.Count == 1)];
        Judged[] clear = [.. single.Where(IsClear)];
        Judged[] well = [.. judged.Where(j => j.Row.Conditions.Count == 0)];
        Judged[] pairs = [.. judged.Where(j => j.Row.Conditions.Count == 2)];
        return string.Join("; ",
            $"{name}: moderate and strong, first {Percent(MeanOverConditions(clear, FirstRight))} (of the beat {Percent(MeanOverConditions(OfTheBeat(clear), FirstRight))})",
            $"first two {Percent(MeanOverConditions(clear, AmongTwo))}",
            $"all severities, first {Percent(MeanOverConditions(single, FirstRight))}",
            $"false alarms {Share(well, FalseAlarm)}, sure {Share(well, SureAlarm)}",
            $"not judged {Share(judged, j => j.Named.Count == 0)}",
            $"pairs in three {Share(pairs, PairInThree)}",
            $"calibration error {Percent(Calibration.Error(judged, changes))}");
    }

    /// <summary>Whether the fault is at least moderate.</summary>
    public static bool IsClear(Judged judged) => judged.Row.Severity >= Moderate;

    /// <summary>Faults of a ram that beats, the sensor in order.</summary>
    public static IEnumerable<Judged> OfTheBeat(IEnumerable<Judged> judged) => judged.Where(j => Conditions.Beating.Contains(j.Row.Truth));

    /// <summary>Named first.</summary>
    public static bool FirstRight(Judged judged) => judged.Named.Take(1).Contains(judged.Row.Truth);

    /// <summary>Named first or second.</summary>
    public static bool AmongTwo(Judged judged) => judged.Named.Take(2).Contains(judged.Row.Truth);

    /// <summary>Something named first that is not "healthy".</summary>
    public static bool FalseAlarm(Judged judged) => judged.Named.Count > 0 && judged.Named[0] != Conditions.Healthy;

    /// <summary>The same, and the probability is high enough that the program doesn't add that it can't tell.</summary>
    public static bool SureAlarm(Judged judged) => FalseAlarm(judged) && judged.Stated >= Diagnoser.LeastToBeSure;

    /// <summary>Both of two faults named among the first three.</summary>
    public static bool PairInThree(Judged judged) => judged.Row.Conditions.All(judged.Named.Take(3).Contains);

    /// <summary>Share that is right, each condition counting the same (the study holds some more often than others).</summary>
    public static double MeanOverConditions(IEnumerable<Judged> single, Func<Judged, bool> right) =>
        single.GroupBy(j => j.Row.Truth).Select(g => g.Count(right) / (double)g.Count()).DefaultIfEmpty().Average();

    /// <summary>A share as text with what it is of.</summary>
    public static string Share(IReadOnlyCollection<Judged> of, Func<Judged, bool> right) => of.Count == 0 ? "none"
        : string.Create(CultureInfo.InvariantCulture, $"{Percent(of.Count(right) / (double)of.Count)} of {of.Count}");

    /// <summary>A share as text.</summary>
    public static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:0.0} %");
}
