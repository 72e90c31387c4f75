using System.Globalization;
using System.Text;
using Clackbeat.DiagnosisStudy.Training;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Papers;

/// <summary>Writes what the study came to: scores, confusion tables and the calibration plot.</summary>
public static class ResultPage
{
    /// <summary>Judges each ram by a model that has never seen it, and writes the page and its picture.</summary>
    /// <param name="tables">Tables of signs.</param>
    /// <param name="docs">The documentation folder.</param>
    public static void Write(IReadOnlyList<string> tables, string docs)
    {
        List<Judged> baseline = CrossValidation.Run(StudyRow.Read(tables, true), true).Judged;
        List<Judged> site = CrossValidation.Run(StudyRow.Read(tables, false), false).Judged;
        string images = Path.Combine(docs, "images");
        Directory.CreateDirectory(images);
        CalibrationPlot.Save(Path.Combine(images, "diagnosis-calibration.svg"), baseline, site);
        int rams = baseline.Select(j => j.Row.Ram).Distinct().Count();
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # What the diagnosis gets right
            Made by `tests/Clackbeat.DiagnosisStudy` (see [diagnosis](diagnosis.md)); don't edit by hand. {rams} random virtual rams,
            each judged by a model trained on other rams only. Severity runs evenly from 0.2 to 1, where 0.2 is hardly visible even in the truth.


            """);
        Section(page, "With a recording of the same ram when it was well", baseline);
        Section(page, "By the site file alone", site);
        page.Append("""
            ## Is a stated probability honest?
            Each dot gathers the judgements of similar stated probability, all conditions together; on the line, a stated 80 % is
            right 80 times in 100. The bar is twice the standard error.

            ![Share that was true against the probability stated, for both ways of judging](images/diagnosis-calibration.svg)

            """);
        File.WriteAllText(Path.Combine(docs, "diagnosis-results.md"), page.ToString());
    }

    private static void Section(StringBuilder page, string title, List<Judged> judged)
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

            False alarms on well rams: {Scores.Share(well, j => !Scores.FirstRight(j))}. Both of two faults at once among the first three: {Scores.Share(pairs, Scores.PairInThree)}.

            Row: what was so; column: what was named first, in records of one fault or none.


            """);
        page.Append("| | " + string.Join(" | ", Conditions.Beating) + " |\n|" + string.Concat(Enumerable.Repeat(" --- |", Conditions.Beating.Count + 1)) + "\n");
        foreach (string truth in Conditions.Beating)
        {
            Judged[] row = [.. judged.Where(j => j.Row.Conditions.Count < 2 && j.Row.Has(truth))];
            page.Append("| " + truth + " | " + string.Join(" | ", Conditions.Beating.Select(c => Cell(row.Count(j => j.Ranked[0] == c), c == truth))) + " |\n");
        }

        page.Append('\n');
    }

    private static string Cell(int count, bool right) => count == 0 ? "" : right
        ? string.Create(CultureInfo.InvariantCulture, $"**{count}**")
        : count.ToString(CultureInfo.InvariantCulture);
}
