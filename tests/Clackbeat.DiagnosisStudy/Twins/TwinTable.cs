using System.Globalization;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>Fits a twin to the records of drawn rams and writes what it foretells beside what happens, a row a change.</summary>
internal static class TwinTable
{
    private const string Header = "ram,material,valve,change,fit_s,change_s,fits,misfit,will_beat,"
        + "rate0,rate,rate_told,rate_u,delivered0,delivered0_told,delivered0_u,twin0_delivered,delivered,delivered_told,delivered_u,"
        + "waste0,waste0_told,waste0_u,twin0_waste,waste,waste_told,waste_u,lift_over_fall,wave_share,fall_m,gas_share,gas_told";

    /// <summary>Measures the first rams of a set that are sound and beat. Times are of the processor, so that other work beside it doesn't count.</summary>
    public static void Write(string folder, string table, TwinDomain domain, FieldSet set, int first, int count, int threads)
    {
        Directory.CreateDirectory(folder);
        FieldRam[] rams = [.. FieldRam.Of(set, first + count, TwinDomains.Of(domain)).Skip(first)];
        string[][] rows = new string[rams.Length][];
        Parallel.For(0, rams.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, i => rows[i] = [.. Rows(folder, TwinCase.Of(domain, rams[i]))]);
        File.WriteAllLines(table, rows.SelectMany(r => r).Prepend(Header));
        Console.WriteLine(TwinSummary.Of(File.ReadAllLines(table)));
    }

    private static IEnumerable<string> Rows(string folder, TwinCase drawn)
    {
        if (drawn.Record(folder) is not { } record)
        {
            yield break;
        }

        var analyser = new RamAnalyser(drawn.Ram.Site);
        analyser.Add(record.TimesS, record.PressuresPa);
        RamAnalysis analysis = analyser.Finish("a record of the study");
        TimeSpan start = Environment.CpuUsage.TotalTime;
        var twin = FittedTwin.Of(drawn.Ram.Site, analysis);
        WhatIf? questions = twin is null ? null : new WhatIf(drawn.Ram.Site, analysis, twin);
        double fitS = (Environment.CpuUsage.TotalTime - start).TotalSeconds;
        TrueFlows before = drawn.Truth(folder, "as-is", new RamChange());
        foreach ((string name, RamChange change) in drawn.Changes)
        {
            TrueFlows truth = drawn.Truth(folder, name, change);
            start = Environment.CpuUsage.TotalTime;
            Prediction? told = questions?.Of(change);
            double changeS = (Environment.CpuUsage.TotalTime - start).TotalSeconds;
            yield return string.Join(',',
            [
                Text(drawn.Ram.Number), drawn.Ram.Site.DrivePipe.Material.ToString(), $"{drawn.Ram.Built.WasteValve.Kind}", name, Text(fitS), Text(changeS),
                $"{twin?.Fits}", Text(twin?.Misfit), Text(told?.WillBeat),
                Text(before.RatePerMin), Text(truth.RatePerMin), .. Of(told?.RatePerMin),
                Text(before.Delivered), .. Of(questions?.AsIs.DeliveredM3PerS), Text(twin?.Cycle.DeliveredM3 / twin?.Cycle.IntervalS), Text(truth.Delivered), .. Of(told?.DeliveredM3PerS),
                Text(before.Waste), .. Of(questions?.AsIs.WasteM3PerS), Text(twin?.Cycle.WasteM3 / twin?.Cycle.IntervalS), Text(truth.Waste), .. Of(told?.WasteM3PerS),
                Text(drawn.Ram.Built.Delivery.HeadM / drawn.Ram.Built.Supply.HeadM), WaveShare(analysis), Text(drawn.Ram.Built.Supply.HeadM), Text(drawn.Ram.Ram.DrivePipe.GasShare),
                Text(twin?.Frame.Ram(twin.Values).DrivePipe.GasShare),
            ]);
        }
    }

    // The step of a wave over the closing velocity; the end of delivery is expected at -0.15 of that step.
    private static string WaveShare(RamAnalysis found) => found is { Column: { } column, Flow.ClosingVelocityMPerS: { } closing }
        ? Text(column.ExpectedAtDeliveryEnd / -0.15 / closing.Value)
        : "";

    private static string[] Of(Figure? figure) => [Text(figure?.Value), Text(figure?.U)];

    private static string Text(double? value) => value?.ToString("G7", CultureInfo.InvariantCulture) ?? "";
}
