using System.Globalization;
using System.Text;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.DiagnosisStudy.Training;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Papers;

/// <summary>Writes what the study came to: scores, confusion tables and the calibration plot.</summary>
internal static class ResultPage
{
    /// <summary>Judges each ram by a model that has never seen it, and writes the page and its picture.</summary>
    /// <param name="tables">Tables of signs.</param>
    /// <param name="docs">The documentation folder.</param>
    public static void Write(IReadOnlyList<string> tables, string docs)
    {
        List<Judged> baseline = CrossValidation.Run(StudyRow.Read(tables, true), true).Judged;
        List<Judged> site = CrossValidation.Run(StudyRow.Read(tables, false), false).Judged;
        Judged[] mixedBaseline = [.. baseline.Where(IsMixed)];
        Judged[] mixedSite = [.. site.Where(IsMixed)];
        string images = Path.Combine(docs, "images");
        Directory.CreateDirectory(images);
        CalibrationPlot.Save(Path.Combine(images, "diagnosis-calibration.svg"), mixedBaseline, mixedSite);
        int rams = mixedBaseline.Select(j => j.Row.Ram).Distinct().Count();
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # What the diagnosis gets right
            Made by `tests/Clackbeat.DiagnosisStudy` (see [diagnosis](diagnosis.md)); don't edit by hand. {rams} random virtual rams,
            each judged by a model trained on other rams only. Severity runs evenly from 0.2 to 1, where 0.2 is hardly visible even in the truth.
            "Undecided" is where the program says that the site file alone can't tell.


            """);
        Section(page, "With a recording of the same ram when it was well", mixedBaseline);
        Section(page, "By the site file alone", mixedSite);
        page.Append(CultureInfo.InvariantCulture, $"""
            ## Rams that are extreme in every way
            The study also holds {baseline.Where(j => !IsMixed(j)).Select(j => j.Row.Ram).Distinct().Count()} rams whose every part is drawn from the whole of a wide range, as no maker would build them:

            - {Scores.Line("with a baseline", [.. baseline.Where(j => !IsMixed(j))])}
            - {Scores.Line("by the site file alone", [.. site.Where(j => !IsMixed(j))])}


            """);
        page.Append("""
            ## Is a stated probability honest?
            Each dot gathers the judgements of similar stated probability, all conditions together; on the line, a stated 80 % is
            right 80 times in 100. The bar is twice the standard error.

            ![Share that was true against the probability stated, for both ways of judging](images/diagnosis-calibration.svg)

            """);
        File.WriteAllText(Path.Combine(docs, "diagnosis-results.md"), page.ToString());
    }

    private static bool IsMixed(Judged judged) => int.Parse(judged.Row.Ram, CultureInfo.InvariantCulture) >= StudyRam.Mixed;

    private static void Section(StringBuilder page, string title, IReadOnlyList<Judged> judged)
    {
        page.Append(CultureInfo.InvariantCulture, $"## {title}\n\n| severity | named first | among the first two |\n| --- | --- | --- |\n");
        foreach ((double from, double to) in new[] { (0.2, 0.4), (0.4, 0.7), (0.7, 1.0) })
        {
            Judged[] part = [.. judged.Where(j => j.Row.Conditions.Count == 1 && j.Row.Severity >= from && j.Row.Severity < to)];
            page.Append(CultureInfo.InvariantCulture, $"| {from:0.0} to {to:0.0} | {Scores.Share(part, Scores.FirstRight)} | {Scores.Share(part, Scores.AmongTwo)} |\n");
        }

        Judged[] single = [.. judged.Where(j => j.Row.Conditions.Count == 1)];
        Judged[] well = [.. judged.Where(j => j.Row.Conditions.Count == 0)];
        Judged[] pairs = [.. judged.Where(j => j.Row.Conditions.Count == 2)];
        page.Append(CultureInfo.InvariantCulture, $"""
            | all | {Scores.Share(single, Scores.FirstRight)} | {Scores.Share(single, Scores.AmongTwo)} |
            | mean over conditions | {Scores.Percent(Scores.MeanOverConditions(single))} | |

            False alarms on well rams: {Scores.Share(well, Scores.FalseAlarm)}. Undecided: {Scores.Share(judged, j => j.Named.Count == 0)}. Both of two faults at once among the first three: {Scores.Share(pairs, Scores.PairInThree)}.

            Row: what was so; column: what was named first, in records of one fault or none.


            """);
        page.Append("| | " + string.Join(" | ", Conditions.Beating) + " | undecided |\n|" + string.Concat(Enumerable.Repeat(" --- |", Conditions.Beating.Count + 2)) + "\n");
        foreach (string truth in Conditions.Beating)
        {
            Judged[] row = [.. judged.Where(j => j.Row.Conditions.Count < 2 && j.Row.Has(truth))];
            page.Append("| " + truth + " | " + string.Join(" | ", Conditions.Beating.Select(c => Cell(row.Count(j => j.Named.Take(1).Contains(c)), c == truth))) + " | " + Cell(row.Count(j => j.Named.Count == 0), false) + " |\n");
        }

        page.Append('\n');
    }

    private static string Cell(int count, bool right) => count == 0 ? "" : right
        ? string.Create(CultureInfo.InvariantCulture, $"**{count}**")
        : count.ToString(CultureInfo.InvariantCulture);
}
