using System.Collections.Concurrent;
using System.Globalization;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>
/// What the delivered flow says where a valve leaks, and where none does: a row for each record judged with and without a baseline,
/// with the flow the virtual ram really delivered. From it the threshold of the upper bound was chosen, and how it does is reported.
/// </summary>
public static class LeakTable
{
    private const double LengthS = 40;

    /// <summary>Heads the table.</summary>
    private const string Header = "ram,number,condition,severity,baseline,delivered_m3s,found_m3s,u_m3s,bound,delivery_leak,waste_leak";

    /// <summary>Runs healthy and leaking records of some rams and writes the table.</summary>
    public static void Write(string table, int first, int count)
    {
        var rows = new ConcurrentBag<string>();
        Parallel.For(first, first + count, new ParallelOptions { MaxDegreeOfParallelism = 1 }, number =>
        {
            if (StudyRam.Make(number) is { } ram)
            {
                foreach (string row in Rows(ram))
                {
                    rows.Add(row);
                }
            }
        });
        File.WriteAllLines(table, rows.Order(StringComparer.Ordinal).Prepend(Header));
    }

    private static IEnumerable<string> Rows(StudyRam ram)
    {
        RamAnalysis? well = null;
        foreach (StudyCase one in StudyCase.Of(ram).Where(IsWanted))
        {
            RamSimulation simulation = one.Start();
            List<VirtualSample> samples = [.. simulation.Samples(LengthS)];
            if (simulation.Totals.Beats < 6 || simulation.Totals.DurationS < LengthS - (4 * simulation.Totals.DurationS / simulation.Totals.Beats))
            {
                if (one.Number == 0)
                {
                    yield break;
                }

                continue;
            }

            double truth = simulation.Totals.DeliveredM3 / simulation.Totals.DurationS;
            RamAnalysis alone = Analyse(ram, samples, null);
            if (one.Number == 0)
            {
                well = alone;
                continue;
            }

            yield return Row(ram, one, truth, alone, ConditionModel.AgainstSite, null);
            if (well?.Signature is { } signature)
            {
                yield return Row(ram, one, truth, Analyse(ram, samples, signature), ConditionModel.AgainstBaseline, signature);
            }
        }
    }

    /// <summary>The baseline, healthy days, and each leak alone.</summary>
    private static bool IsWanted(StudyCase one) => one.Faults.Count == 0
        || (one.Faults.Count == 1 && one.Faults[0].Condition is RamCondition.DeliveryValveLeaking or RamCondition.WasteValveLeaking);

    private static RamAnalysis Analyse(StudyRam ram, List<VirtualSample> samples, Signature? well)
    {
        var analyser = new RamAnalyser(ram.Site, well);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("a record of the study");
    }

    /// <summary>One line for each way of judging: in how many leaks the flow is a bound or holds the truth, how many well records are bounds.</summary>
    public static string Summary(string table)
    {
        string[][] rows = [.. File.ReadLines(table).Skip(1).Select(line => line.Split(',')).Where(r => r[6].Length > 0)];
        return string.Join('\n', rows.GroupBy(r => r[4], StringComparer.Ordinal).Select(judged =>
        {
            string[][] leaks = [.. judged.Where(r => r[2] != "healthy")], well = [.. judged.Where(r => r[2] == "healthy")];
            return FormattableString.Invariant(
                $"baseline {judged.Key}: {leaks.Count(Holds)} of {leaks.Length} leaks a bound or right, {well.Count(r => r[8] == "upper")} of {well.Length} well records a bound");
        }));

        static bool Holds(string[] row)
        {
            double Number(int column) => double.Parse(row[column], CultureInfo.InvariantCulture);
            bool isBound = row[8] == "upper";
            return Number(6) + Number(7) >= Number(5) && (isBound || Number(6) - Number(7) <= Number(5));
        }
    }

    private static string Row(StudyRam ram, StudyCase one, double truth, RamAnalysis analysis, ConditionModel model, Signature? well)
    {
        (double delivery, double waste) = Leaks(analysis.Signature, model, well);
        Figure? found = analysis.Flow.DeliveredM3PerS;
        return string.Join(',', new[]
        {
            Text(ram.Number), Text(one.Number), one.Faults.Count == 0 ? "healthy" : CaseNames.Of(one.Faults[0]),
            Text(one.Faults.Count == 0 ? 0 : one.Faults[0].Severity), well is null ? "no" : "yes",
            Text(truth), found is { } f ? Text(f.Value) : "", found is { } g ? Text(g.U) : "",
            found is { IsUpperBound: true } ? "upper" : "", Text(delivery), Text(waste),
        });
    }

    private static (double Delivery, double Waste) Leaks(Signature? now, ConditionModel model, Signature? well)
    {
        if (now is null)
        {
            return (double.NaN, double.NaN);
        }

        FeatureScores reading = model.Score(well is null ? Comparison.BySite(now) : Comparison.ByBaseline(now, well));
        var odds = model.Judge(reading).ToDictionary(j => j.Condition, j => j.Probability, StringComparer.Ordinal);
        return (odds[Conditions.DeliveryValveLeaking], odds[Conditions.WasteValveLeaking]);
    }

    private static string Text(double number) => number.ToString("G5", CultureInfo.InvariantCulture);
}
