using System.Globalization;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.DiagnosisStudy.Records;
using Clackbeat.Signal.HandTests;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.DiagnosisStudy.Leaks;

/// <summary>
/// The test with gate and waste valve shut, made on drawn rams that are well or leak, and read as the program reads it. The keeper holds the
/// waste valve for eight to fourteen seconds, shuts the gate for half a minute and pushes the
/// valve open. The snifter is plugged, as the steps say. Three
/// gates in ten leak.
/// </summary>
internal static class ShutStudy
{
    private const double FlowS = 30;

    // A gate that leaks passes up to as much as a hole of one square millimetre; a tight one, next to nothing.
    private const double Tight = 1e-9;
    private const double LargestGateLeakM2 = 1e-6;
    private const double GateLeaks = 0.3;

    // The gate is shut after eight seconds at the earliest: before that the recording is one of the static level.
    private const double LevelS = 8;

    private static readonly RamCondition[] Tried = [RamCondition.Healthy, RamCondition.DeliveryValveLeaking, RamCondition.WasteValveLeaking];

    // What else the beat may show: neither valve leaks, so the test should say so.
    private static readonly RamCondition[] Others =
    [
        RamCondition.WasteValveSticking, RamCondition.DeliveryValveLate, RamCondition.AirVesselWaterlogged, RamCondition.AirInDrivePipe,
        RamCondition.SupplyStarved, RamCondition.DeliveryRestricted, RamCondition.DeliveryMainLeaking, RamCondition.WasteValveWorn,
    ];

    /// <summary>Runs the rams, or reads what an earlier run kept of them, and writes a row a test.</summary>
    /// <param name="folder">Folder of the kept recordings.</param>
    /// <param name="table">File of the table.</param>
    /// <param name="first">Number of the first ram.</param>
    /// <param name="count">Number of rams.</param>
    public static void Write(string folder, string table, int first, int count)
    {
        Directory.CreateDirectory(folder);
        var rows = new List<string>();
        for (int number = first; number < first + count; number++)
        {
            if (StudyRam.Make(number) is { } ram)
            {
                rows.AddRange(Rows(folder, ram));
            }
        }

        File.WriteAllLines(table, rows.Prepend("ram,condition,severity,cost,gate_leak_mm2,shut,level"));
        Console.WriteLine(Summary(rows));
    }

    private static IEnumerable<string> Rows(string folder, StudyRam ram)
    {
        foreach (string truth in Truths(folder, $"{ram.Number:00000}.csv", () => Run(folder, ram)).Concat(Truths(folder, $"{ram.Number:00000}-others.csv", () => RunOthers(folder, ram))))
        {
            (double[] times, double[] pressures) = RecordFile.Read(PathOf(folder, ram, truth.Split(',')[1]));
            ShutResult result = ShutTest.Read(times, pressures, ram.Site, isGateAtIntake: false);
            int level = times.Count(t => t < LevelS);
            TestResult standing = LevelReading.Read(times.AsSpan(0, level), pressures.AsSpan(0, level), ram.Site);
            yield return $"{truth},{result.Verdict.Code()},{standing.Verdict.Code()}";
        }
    }

    private static string[] Truths(string folder, string name, Func<IEnumerable<string>> run)
    {
        string path = Path.Combine(folder, name);
        if (!File.Exists(path))
        {
            File.WriteAllLines(path, [.. run()]);
        }

        return File.ReadAllLines(path);
    }

    private static string PathOf(string folder, StudyRam ram, string condition) => Path.Combine(folder, FormattableString.Invariant($"{ram.Number:00000}-{condition}.bin"));

    /// <summary>Makes the tests of a ram, keeps their recordings and says what is true of each.</summary>
    private static IEnumerable<string> Run(string folder, StudyRam ram)
    {
        var dice = new Dice(ram.Number + 5_000_000);
        RamParameters well = StudyRam.Coarse(ram.Ram);
        if (DeliveredM3PerS(well, ram.Sensor) is not { } usual || usual <= 0)
        {
            yield break;
        }

        foreach (RamCondition condition in Tried)
        {
            var fault = new Fault { Condition = condition, Severity = condition == RamCondition.Healthy ? 0 : dice.Between(0.2, 1) };
            RamParameters ill = FaultEffects.Apply(well, fault);
            double? delivered = condition == RamCondition.Healthy ? usual : DeliveredM3PerS(ill, ram.Sensor);
            double gate = dice.Chance(GateLeaks) ? dice.Between(0.1, 1) * LargestGateLeakM2 : Tight;
            Keep(folder, ram, condition, Test(ill, ram, gate, dice));

            // A ram that the leak stops delivers nothing.
            double cost = 1 - ((delivered ?? 0) / usual);
            yield return string.Create(CultureInfo.InvariantCulture, $"{ram.Number},{condition.Code()},{fault.Severity:0.000},{cost:0.000},{1e6 * gate:0.000}");
        }
    }

    private static IEnumerable<string> RunOthers(string folder, StudyRam ram)
    {
        var dice = new Dice(ram.Number + 6_000_000);
        foreach (RamCondition condition in Others)
        {
            var fault = new Fault
            {
                Condition = condition,
                Severity = dice.Between(0.2, 1),
                StarvedBy = dice.Pick(StarvedBy.LowLevel, StarvedBy.BlockedStrainer, StarvedBy.HalfShutGate),
                LeakAt = dice.Between(0.1, 0.9),
            };
            double gate = dice.Chance(GateLeaks) ? dice.Between(0.1, 1) * LargestGateLeakM2 : Tight;
            Keep(folder, ram, condition, Test(FaultEffects.Apply(StudyRam.Coarse(ram.Ram), fault), ram, gate, dice));
            yield return string.Create(CultureInfo.InvariantCulture, $"{ram.Number},{condition.Code()},{fault.Severity:0.000},0,{1e6 * gate:0.000}");
        }
    }

    private static void Keep(string folder, StudyRam ram, RamCondition condition, List<VirtualSample> samples) =>
        RecordFile.Write(PathOf(folder, ram, condition.Code()), [.. samples.Select(s => s.TimeS - StandsS)], [.. samples.Select(s => s.PressurePa)]);

    private static double? DeliveredM3PerS(RamParameters ram, SensorParameters sensor)
    {
        var simulation = new RamSimulation(ram, sensor with { RateHz = 50 }, new SimulationOptions { Seed = 3, WarmUpS = 10 });
        foreach (VirtualSample sample in simulation.Samples(FlowS))
        {
            _ = sample;
        }

        return simulation.Totals.Beats > 5 ? simulation.Totals.DeliveredM3 / simulation.Totals.DurationS : null;
    }

    private static List<VirtualSample> Test(RamParameters ram, StudyRam of, double gateLeakM2, Dice dice)
    {
        RamParameters plugged = ram with { Body = ram.Body with { SnifterAreaM2 = 0 } };
        SensorParameters sensor = of.Sensor with { RateHz = Math.Min(of.Sensor.RateHz, 200) };
        var run = new RamSimulation(plugged, sensor, new SimulationOptions { Seed = dice.Seed(), WarmUpS = 12 });
        double gateS = dice.Between(8, 14);
        double pushS = gateS + dice.Between(28, 35);
        bool isShut = false;
        bool isPushed = false;
        run.Engine.HoldWasteValve();

        // The record begins once the ram stands still.
        List<VirtualSample> samples = [];
        foreach (VirtualSample sample in run.Samples(StandsS + pushS + 7))
        {
            double timeS = sample.TimeS - StandsS;
            if (!isShut && timeS > gateS)
            {
                run.Engine.ShutGate(gateLeakM2);
                isShut = true;
            }

            if (!isPushed && timeS > pushS)
            {
                run.Engine.PushWasteValveOpen();
                isPushed = true;
            }

            if (timeS >= 0)
            {
                samples.Add(sample);
            }
        }

        return samples;
    }

    // How long a keeper waits after the last beat before he starts the recording.
    private const double StandsS = 6;

    private static string Summary(IEnumerable<string> rows)
    {
        string[][] all = [.. rows.Select(r => r.Split(','))];
        bool Costs(string[] row) => double.Parse(row[3], CultureInfo.InvariantCulture) > 0.1;
        string Share(string condition, params ShutVerdict[] right)
        {
            string[][] some = [.. all.Where(r => r[1] == condition && (condition == RamCondition.Healthy.Code() || Costs(r)))];
            return $"{condition}: {some.Count(r => right.Any(v => r[5] == v.Code()))} of {some.Length}"
                + $" ({string.Join(", ", some.GroupBy(r => r[5]).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => $"{g.Key} {g.Count()}"))})";
        }

        return string.Join('\n', [
            Share(RamCondition.Healthy.Code(), ShutVerdict.BothHold),
            Share(RamCondition.DeliveryValveLeaking.Code(), ShutVerdict.DeliveryValveLeaks),
            Share(RamCondition.WasteValveLeaking.Code(), ShutVerdict.WasteValveLeaks)]);
    }
}
