using System.Globalization;
using Clackbeat.Signal.Analysis;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Shifts;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>Two records of one drawn ram, nothing or one part changed between them, and which parts the twins say have moved.</summary>
internal static class ShiftTable
{
    private const string Header = "ram,change,part,log_ratio,u,clear";

    private static readonly (string Name, RamPart? Part, RamChange Change)[] Changes =
    [
        ("nothing", null, new RamChange()),
        ("stroke -10 %", RamPart.Stroke, new RamChange { Stroke = 0.9 }),
        ("stroke -20 %", RamPart.Stroke, new RamChange { Stroke = 0.8 }),
        ("weight -15 %", RamPart.Weight, new RamChange { Weight = 0.85 }),
    ];

    /// <summary>Measures the first rams of a set that are sound and beat.</summary>
    public static void Write(string table, TwinDomain domain, FieldSet set, int first, int count, int threads)
    {
        FieldRam[] rams = [.. FieldRam.Of(set, first + count, TwinDomains.Of(domain)).Skip(first)];
        (string Change, RamPart? Moved, TwinShift Shift, int Ram)[][] rows = new (string, RamPart?, TwinShift, int)[rams.Length][];
        Parallel.For(0, rams.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, i => rows[i] = [.. Rows(TwinCase.Of(domain, rams[i]))]);
        (string Change, RamPart? Moved, TwinShift Shift, int Ram)[] all = [.. rows.SelectMany(r => r)];
        File.WriteAllLines(table, all.Select(r => string.Create(
            CultureInfo.InvariantCulture, $"{r.Ram},{r.Change},{r.Shift.Part},{r.Shift.LogRatio:G5},{2 * r.Shift.StandardU:G5},{r.Shift.IsClear}")).Prepend(Header));
        Console.WriteLine("| changed | records | part found to have moved | its change, median | its ±, median | other parts found to have moved |");
        Console.WriteLine("| --- | --- | --- | --- | --- | --- |");
        foreach (IGrouping<string, (string Change, RamPart? Moved, TwinShift Shift, int Ram)> change in all.GroupBy(r => r.Change))
        {
            TwinShift[] own = [.. change.Where(r => r.Shift.Part == r.Moved).Select(r => r.Shift)];
            TwinShift[] other = [.. change.Where(r => r.Shift.Part != r.Moved).Select(r => r.Shift)];
            string found = own.Length == 0 ? "| | | " : string.Create(
                CultureInfo.InvariantCulture,
                $"{own.Count(o => o.IsClear)} of {own.Length} | {Percent(own.Select(o => o.LogRatio))} | {100 * Middle(own.Select(o => 2 * o.StandardU)):0} % | ");
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture, $"| {change.Key} | {change.Select(r => r.Ram).Distinct().Count()} | {found}{other.Count(o => o.IsClear)} of {other.Length} |"));
        }
    }

    private static IEnumerable<(string Change, RamPart? Moved, TwinShift Shift, int Ram)> Rows(TwinCase drawn)
    {
        if (Fitted(drawn, new RamChange(), 0) is not { Fits: true } before)
        {
            yield break;
        }

        foreach ((string name, RamPart? part, RamChange change) in Changes)
        {
            if (Fitted(drawn, change, 1) is { Fits: true } now)
            {
                foreach (TwinShift shift in TwinShift.Between(before, now))
                {
                    yield return (name, part, shift, drawn.Ram.Number);
                }
            }
        }
    }

    private static FittedTwin? Fitted(TwinCase drawn, RamChange change, int again)
    {
        (double[] times, double[] pressures) = drawn.Trial(change, again);
        var analyser = new RamAnalyser(drawn.Ram.Site);
        analyser.Add(times, pressures);
        return FittedTwin.Of(drawn.Ram.Site, analyser.Finish("a record of the study"));
    }

    private static string Percent(IEnumerable<double> logs) => string.Create(CultureInfo.InvariantCulture, $"{100 * (Math.Exp(Middle(logs)) - 1):+0;-0} %");

    private static double Middle(IEnumerable<double> values)
    {
        double[] sorted = [.. values.Order()];
        return sorted.Length == 0 ? double.NaN : sorted[sorted.Length / 2];
    }
}
