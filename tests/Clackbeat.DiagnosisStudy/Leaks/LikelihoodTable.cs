using System.Globalization;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.HandTests;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Leaks;

/// <summary>Counts how often rams with a condition gave each verdict of a test by hand: the program's <c>hand-tests.csv</c>.</summary>
internal static class LikelihoodTable
{
    // Who made the bucket test read it to three parts in a hundred, as the program assumes.
    private const double BucketShare = 0.03;

    /// <summary>Counts over the rams to choose by, and over no others.</summary>
    /// <param name="shutTable">What the study command <c>shut</c> wrote.</param>
    /// <param name="repeatFolder">What the study command <c>repeat</c> left.</param>
    /// <param name="output">The data file.</param>
    public static void Write(string shutTable, string repeatFolder, string output)
    {
        var verdicts = new List<(string Test, string Condition, string Verdict)>();
        foreach (string[] row in File.ReadLines(shutTable).Skip(1).Select(l => l.Split(',')).Where(r => IsChoosing(r[0])))
        {
            verdicts.Add((HandTest.Shut, row[1], row[5]));
            verdicts.Add((HandTest.Level, row[1], row[6]));
        }

        foreach (string file in Directory.EnumerateFiles(repeatFolder, "*-repeat.csv").Order(StringComparer.Ordinal))
        {
            verdicts.AddRange(Repeats(file));
        }

        IEnumerable<string> lines = verdicts
            .Where(v => v.Verdict != HandReading.Unclear)
            .GroupBy(v => v)
            .OrderBy(g => g.Key.Test, StringComparer.Ordinal).ThenBy(g => g.Key.Condition, StringComparer.Ordinal).ThenBy(g => g.Key.Verdict, StringComparer.Ordinal)
            .Select(g => $"{g.Key.Test},{g.Key.Condition},{g.Key.Verdict},{g.Count()}");
        File.WriteAllLines(output, lines.Prepend("test,condition,verdict,count"));
    }

    private static IEnumerable<(string Test, string Condition, string Verdict)> Repeats(string file)
    {
        string[][] all = [.. File.ReadLines(file).Select(l => l.Split(','))];
        var column = all[0].Select((name, i) => (name, i)).ToDictionary(c => c.name, c => c.i, StringComparer.Ordinal);
        double? Of(string[] row, string name) => double.TryParse(row[column[name]], CultureInfo.InvariantCulture, out double value) ? value : null;
        foreach (IGrouping<string, string[]> condition in all.Skip(1).Where(r => IsChoosing(r[0])).GroupBy(r => r[1]))
        {
            var done = condition.ToDictionary(r => r[3], StringComparer.Ordinal);
            foreach ((string test, RamCondition mends) in RepeatStudy.Mends)
            {
                (Feature feature, int sign) = RepeatReading.Watched(test);
                if (done.GetValueOrDefault(condition.Key == mends.Code() ? test : "again") is { } row && Of(row, "d" + feature) is { } change)
                {
                    yield return (test, condition.Key, RepeatReading.Judge(sign * change).Code());
                }
            }

            // Who comes to this test has seen uneven beats: only such rams count.
            if (done.TryGetValue("again", out string[]? again) && Of(again, "s" + Feature.LongBeats) is { } before && RepeatReading.JudgeStroke(before) == TestVerdict.StillUneven
                && done.TryGetValue(RepeatReading.Stroke, out string[]? shorter) && Of(shorter, "s" + Feature.LongBeats) is { } atShorter)
            {
                yield return (RepeatReading.Stroke, condition.Key, RepeatReading.JudgeStroke(atShorter).Code());
            }

            if (done.Values.First() is { } first && Of(first, "delivered") is { } delivered && Of(first, "delivered_u") is { } u && Of(first, "arrived") is { } arrived)
            {
                yield return (HandTest.Bucket, condition.Key, BucketReading.Judge(delivered, u, arrived, BucketShare * arrived).Code());
            }
        }
    }

    private static bool IsChoosing(string ram) => StudyRam.SetOf(ram) == FieldSet.Choosing;
}
