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
            each judged by a model trained on other rams only. Severity runs evenly from 0.2 to 1, where 0.2 is hardly visible even in the truth and 1
            is as bad as it gets. Shares are means over conditions, each counting the same, of the eight faults of a beating ram, the two stops and
            the sensor's faults; the last column leaves stops and sensor out. Named first is what stands first in the list, however unsure.


            """);
        Section(page, "With a recording of the same ram when it was well", mixedBaseline, true);
        Section(page, "By the site file alone", mixedSite, false);
        page.Append(CultureInfo.InvariantCulture, $"""
            ## Rams that are extreme in every way
            The study also holds {baseline.Where(j => !IsMixed(j)).Select(j => j.Row.Ram).Distinct().Count()} rams whose every part is drawn from the whole of a wide range, as no maker would build them:

            - {Scores.Line("with a baseline", [.. baseline.Where(j => !IsMixed(j))])}
            - {Scores.Line("by the site file alone", [.. site.Where(j => !IsMixed(j))])}


            """);
        Judged[] right = [.. mixedBaseline.Where(j => j.Row.Conditions.Count == 1 && Scores.FirstRight(j) && j.IsByModel)];
        Judged[] beginning = [.. right.Where(j => j.IsBeginning)];
        Judged[] small = [.. right.Where(j => !Scores.IsClear(j))];
        Judged[] strong = [.. right.Where(j => j.Row.Severity >= Bands[2].From)];
        page.Append(CultureInfo.InvariantCulture, $"""
            ## Is "beginning" said at the right time?
            Of faults rightly named first, with a baseline: of those called beginning, {Scores.Share(beginning, j => !Scores.IsClear(j))} have a severity under 0.4, and {Scores.Share(beginning, j => j.Row.Severity < 0.5)} under 0.5.
            Of those under 0.4, {Scores.Share(small, j => j.IsBeginning)} are called beginning; of the strong ones, {Scores.Share(strong, j => j.IsBeginning)}.


            """);
        page.Append("""
            ## Is a stated probability honest?
            Each dot gathers the judgements of similar stated probability, all conditions together; on the line, a stated 80 % is
            right 80 times in 100. The bar is twice the standard error.

            ![Share that was true against the probability stated, for both ways of judging](images/diagnosis-calibration.svg)

            """);
        File.WriteAllText(Path.Combine(docs, "diagnosis-results.md"), page.ToString());
    }

    private static readonly (string Name, double From, double To)[] Bands =
        [("small, 0.2 to 0.4", 0.2, 0.4), ("moderate, 0.4 to 0.7", 0.4, 0.7), ("strong, 0.7 to 1", 0.7, 1.01), ("**moderate and strong**", 0.4, 1.01), ("all", 0.2, 1.01)];

    private static bool IsMixed(Judged judged) => StudyRam.IsMixed(judged.Row.Ram);

    private static void Section(StringBuilder page, string title, IReadOnlyList<Judged> judged, bool changes)
    {
        Judged[] single = [.. judged.Where(j => j.Row.Conditions.Count == 1)];
        Judged[] well = [.. judged.Where(j => j.Row.Conditions.Count == 0)];
        Judged[] pairs = [.. judged.Where(j => j.Row.Conditions.Count == 2)];
        page.Append(CultureInfo.InvariantCulture, $"""
            ## {title}
            | severity | named first | among the first two | faults of a beating ram only, named first |
            | --- | --- | --- | --- |

            """);
        foreach ((string name, double from, double to) in Bands)
        {
            Judged[] part = [.. single.Where(j => j.Row.Severity >= from && j.Row.Severity < to)];
            page.Append(CultureInfo.InvariantCulture, $"| {name} | {Mean(part, Scores.FirstRight)} | {Mean(part, Scores.AmongTwo)} | {Mean(Scores.OfTheBeat(part), Scores.FirstRight)} |\n");
        }

        page.Append(CultureInfo.InvariantCulture, $"""

            False alarms on well rams: {Scores.Share(well, Scores.FalseAlarm)}. Both of two faults at once among the first three: {Scores.Share(pairs, Scores.PairInThree)}. Not judged: {Scores.Share(judged, j => j.Named.Count == 0)}.

            Row: what was so; columns: share named first by severity, then what was named first at moderate and strong severity.


            """);
        string[] columns = [.. Conditions.Beating, Conditions.StoppedShut, Conditions.StoppedOpen, Conditions.SensorFault];
        page.Append("| | small | moderate | strong | " + string.Join(" | ", columns) + " | not judged |\n|" + string.Concat(Enumerable.Repeat(" --- |", columns.Length + 5)) + "\n");
        foreach (string truth in columns)
        {
            Judged[] row = [.. judged.Where(j => j.Row.Conditions.Count < 2 && j.Row.Truth == truth)];
            Judged[] clear = [.. row.Where(j => truth == Conditions.Healthy || Scores.IsClear(j))];
            page.Append("| " + truth + " | " + string.Concat(Bands.Take(3).Select(b => BandCell(row, b.From, b.To) + " | "))
                + string.Join(" | ", columns.Select(c => Cell(clear.Count(j => j.Named.Take(1).Contains(c)), c == truth))) + " | " + Cell(clear.Count(j => j.Named.Count == 0), false) + " |\n");
        }

        page.Append("\nWhat is named first, by the probability stated for it:\n\n| stated | true | judgements |\n| --- | --- | --- |\n");
        foreach (Bin bin in Calibration.FirstBins(judged, changes))
        {
            page.Append(CultureInfo.InvariantCulture, $"| {100 * bin.Stated:0} % | {100 * bin.True:0} ± {100 * bin.Error:0} % | {bin.Count} |\n");
        }

        page.Append('\n');
    }

    private static string Mean(IEnumerable<Judged> judged, Func<Judged, bool> right) => Scores.Percent(Scores.MeanOverConditions(judged, right));

    private static string BandCell(Judged[] row, double from, double to)
    {
        Judged[] part = [.. row.Where(j => j.Row.Severity >= from && j.Row.Severity < to)];
        return part.Length == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{100.0 * part.Count(Scores.FirstRight) / part.Length:0} %");
    }

    private static string Cell(int count, bool right) => count == 0 ? "" : right
        ? string.Create(CultureInfo.InvariantCulture, $"**{count}**")
        : count.ToString(CultureInfo.InvariantCulture);
}
