using System.Globalization;
using System.Text;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.DiagnosisStudy.Training;
using Clackbeat.Signal.Diagnosis;

namespace Clackbeat.DiagnosisStudy.Papers;

/// <summary>Writes the results of the study: scores, confusion tables and the calibration plot.</summary>
internal static class ResultPage
{
    /// <summary>Writes the page and its picture.</summary>
    /// <param name="baseline">Judgements with a baseline of rams to report on.</param>
    /// <param name="site">The same without one.</param>
    /// <param name="trained">What the models were trained on.</param>
    /// <param name="docs">The documentation folder.</param>
    public static void Write(IReadOnlyList<Judged> baseline, IReadOnlyList<Judged> site, string trained, string docs)
    {
        string images = Path.Combine(docs, "images");
        Directory.CreateDirectory(images);
        CalibrationPlot.Save(Path.Combine(images, "diagnosis-calibration.svg"), baseline, site);
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $"""
            # What the diagnosis gets right
            Made by `tests/Clackbeat.DiagnosisStudy` (see [diagnosis](diagnosis.md)). Don't edit this page by hand.

            - **Rams:** drawn [from the field](virtual-ram.md#rams-drawn-from-the-field). "Real" pipes creep, damp by unsteady friction, and may
              have sections, a stand pipe or a snifter; loggers take 100 to 2000 samples a second. "Elastic" pipes have none of these, and
              loggers are quick.
            - **Trained on** {trained}. **Reported here** are others:
              {Rams(site, false)} real and {Rams(site, true)} elastic ones, which chose nothing.
            - **Severity:** evenly from 0.2 to 1. At 0.2 a fault is hardly visible even in the simulated truth. 1 is the worst case.
            - **Conditions:** the eight faults of a beating ram, the two stops, and the sensor's faults.
            - **Shares:** means over the conditions, each with the same weight. The last column leaves out stops and sensor faults.
            - **Named first:** first in the list, however uncertain.


            """);
        foreach ((bool elastic, string pipe) in new[] { (false, "Real pipes"), (true, "Elastic pipes") })
        {
            Section(page, $"{pipe}, with a recording of the same ram when it was well", [.. baseline.Where(j => IsElastic(j) == elastic)], true);
            Section(page, $"{pipe}, by the site file alone", [.. site.Where(j => IsElastic(j) == elastic)], false);
        }

        Judged[] right = [.. baseline.Where(j => j.Row.Conditions.Count == 1 && Scores.FirstRight(j) && j.IsByModel)];
        Judged[] beginning = [.. right.Where(j => j.IsBeginning)];
        Judged[] small = [.. right.Where(j => !Scores.IsClear(j))];
        Judged[] strong = [.. right.Where(j => j.Row.Severity >= Bands[2].From)];
        page.Append(CultureInfo.InvariantCulture, $"""
            ## Is "beginning" said at the right time?
            Faults rightly named first, with a baseline:

            | of those | share |
            | --- | --- |
            | called beginning: severity under 0.4 | {Scores.Share(beginning, j => !Scores.IsClear(j))} |
            | called beginning: severity under 0.5 | {Scores.Share(beginning, j => j.Row.Severity < 0.5)} |
            | severity under 0.4: called beginning | {Scores.Share(small, j => j.IsBeginning)} |
            | strong: called beginning | {Scores.Share(strong, j => j.IsBeginning)} |


            """);
        page.Append("""
            ## Calibration of the stated probability
            Each dot is a group of judgements with a similar stated probability, all conditions together. On the line, a stated 80 % is
            right 80 times in 100. The bar is twice the standard error.

            ![Share that was true against the probability stated, for both ways of judging](images/diagnosis-calibration.svg)

            """);
        File.WriteAllText(Path.Combine(docs, "diagnosis-results.md"), page.ToString());
    }

    private static readonly (string Name, double From, double To)[] Bands =
        [("small, 0.2 to 0.4", 0.2, 0.4), ("moderate, 0.4 to 0.7", 0.4, 0.7), ("strong, 0.7 to 1", 0.7, 1.01), ("**moderate and strong**", 0.4, 1.01), ("all", 0.2, 1.01)];

    private static bool IsElastic(Judged judged) => StudyRam.IsElastic(judged.Row.Ram);

    private static int Rams(IReadOnlyList<Judged> judged, bool elastic) => judged.Where(j => IsElastic(j) == elastic).Select(j => j.Row.Ram).Distinct().Count();

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

            | also | share |
            | --- | --- |
            | well rams of which a fault is named first, however uncertain | {Scores.Share(well, Scores.FalseAlarm)} |
            | well rams of which a fault is named first and called likely (60 % or more) | {Scores.Share(well, Scores.SureAlarm)} |
            | two faults at once, both among the first three | {Scores.Share(pairs, Scores.PairInThree)} |
            | not judged | {Scores.Share(judged, j => j.Named.Count == 0)} |
            | expected calibration error of what is named first | {Scores.Percent(Calibration.Error(judged, changes))} |

            Each row is a true condition. The first columns give the share named first, by severity. The others count what was named first at moderate and strong severity.


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

        page.Append("\nHow often the condition named first was true, by the probability stated for it:\n\n| stated | true | judgements |\n| --- | --- | --- |\n");
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
