using System.Globalization;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.DiagnosisStudy.Twins;

/// <summary>Drawn rams whose vessels hold any air from nearly none to more than is usual: what the record shows of it, and what a change of it does.</summary>
internal static class AirTable
{
    private const string Header =
        "ram,share,misfit,rise,rise_told,low,told,high,open,change,rate,rate_told,rate_u,delivered,delivered_told,delivered_u,waste,waste_told,waste_u,change_s";

    private const double LeastShare = 0.05;
    private const double MostShare = 1.5;
    private const double RecordS = 60;
    private const double TruthS = 40;

    /// <summary>Measures the first rams of a set that are sound and beat.</summary>
    public static void Write(string table, TwinDomain domain, FieldSet set, int first, int count, int threads)
    {
        FieldRam[] rams = [.. FieldRam.Of(set, first + count, TwinDomains.Of(domain)).Skip(first)];
        string[][] rows = new string[rams.Length][];
        Parallel.For(0, rams.Length, new ParallelOptions { MaxDegreeOfParallelism = threads }, i => rows[i] = [.. Rows(TwinCase.Of(domain, rams[i]).Ram)]);
        File.WriteAllLines(table, rows.SelectMany(r => r).Prepend(Header));
    }

    private static IEnumerable<string> Rows(FieldRam drawn)
    {
        int seed = FieldRam.SeedOf(drawn.Set, drawn.Number);
        double share = new Dice(seed + 6_000_000).Log(LeastShare, MostShare);
        double airM3 = share * drawn.Ram.AirVessel.GasM3;
        RamParameters ram = WithAir(drawn.Ram, airM3);
        List<VirtualSample> samples = [.. Simulation(drawn, ram, seed).Samples(RecordS)];
        var analyser = new RamAnalyser(drawn.Site);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        RamAnalysis analysis = analyser.Finish("a record of the study");
        if (FittedTwin.Of(drawn.Site, analysis) is not { } twin)
        {
            yield return Line($"{drawn.Number},{share:G4},,,,,,,,,,,,,,,,,,");
            yield break;
        }

        Cycle? own = CycleRun.Of(WorkingVessel.Of(twin.Frame.Ram(twin.Values), twin, airM3), twin.Measured.IntervalS);
        double rise = PlateauRise.Of(twin.Measured.Head, twin.Measured);
        double riseTold = own is null ? double.NaN : PlateauRise.Of(twin.Laid(own), twin.Measured);
        var questions = new WhatIf(drawn.Site, analysis, twin);
        var seen = VesselAir.Of(twin);
        double full = seen.FullM3;
        foreach ((string name, double m3) in new[] { ("full", full), ("a tenth", 0.1 * full) })
        {
            long began = TimeProvider.System.GetTimestamp();
            Prediction told = questions.Of(new RamChange { AirM3 = m3 });
            double changeS = TimeProvider.System.GetElapsedTime(began).TotalSeconds;
            RamSimulation simulation = Simulation(drawn, WithAir(drawn.Ram, m3), seed);
            foreach (VirtualSample _ in simulation.Samples(TruthS))
            {
            }

            RamTotals t = simulation.Totals;
            yield return Line(
                $"{drawn.Number},{airM3 / full:G4},{twin.Misfit:F1},{rise:G4},{riseTold:G4},{seen.LowM3 / full:G4},{seen.M3 / full:G4},{(seen.IsOpen ? double.NaN : seen.HighM3 / full):G4},{seen.IsOpen},{name},{t.BeatsPerMin:G5},{Of(told.RatePerMin)},{t.DeliveredM3 / t.DurationS:G5},{Of(told.DeliveredM3PerS)},{t.WasteM3 / t.DurationS:G5},{Of(told.WasteM3PerS)},{changeS:F3}");
        }
    }

    private static RamParameters WithAir(RamParameters ram, double airM3) => ram with { AirVessel = ram.AirVessel with { GasM3 = airM3 } };

    private static RamSimulation Simulation(FieldRam drawn, RamParameters ram, int seed) =>
        new(ram, drawn.Sensor, new SimulationOptions { Seed = seed, WarmUpS = 25 });

    private static string Of(Figure? figure) => figure is { } f ? Line($"{f.Value:G5},{f.U:G4}") : ",";

    private static string Line(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
