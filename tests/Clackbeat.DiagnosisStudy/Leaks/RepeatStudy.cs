using System.Globalization;
using Clackbeat.DiagnosisStudy.Rams;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.Figures;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.DiagnosisStudy.Leaks;

/// <summary>
/// The tests by hand that repeat a record once something was done at the ram: the intake cleared, the air let out, the vessel vented, the
/// stroke shortened by a quarter. A fault that this mends is gone in the second record; any other is as it was. The bucket's test is made on the first.
/// </summary>
internal static class RepeatStudy
{
    private const double LengthS = 20;
    private const double WarmUpS = 10;
    private const double ShorterStroke = 0.75;

    private static readonly RamCondition[] Tried =
    [
        RamCondition.Healthy, RamCondition.WasteValveSticking, RamCondition.WasteValveLeaking, RamCondition.DeliveryValveLeaking, RamCondition.DeliveryValveLate,
        RamCondition.AirVesselWaterlogged, RamCondition.AirInDrivePipe, RamCondition.SupplyStarved, RamCondition.DeliveryRestricted,
        RamCondition.DeliveryMainLeaking, RamCondition.WasteValveWorn,
    ];

    private static readonly Feature[] Features = Enum.GetValues<Feature>();

    /// <summary>Runs the rams and writes a row a test; what the folder holds is not run again.</summary>
    public static void Write(string folder, int first, int count)
    {
        Directory.CreateDirectory(folder);
        for (int number = first; number < first + count; number++)
        {
            string path = Path.Combine(folder, FormattableString.Invariant($"{number:00000}-repeat.csv"));
            if (!File.Exists(path) && StudyRam.Make(number) is { } ram)
            {
                File.WriteAllLines(path, [.. Rows(ram)]);
            }
        }
    }

    private static IEnumerable<string> Rows(StudyRam ram)
    {
        yield return "ram,condition,severity,done,delivered,delivered_u,arrived," + string.Join(',', Features.Select(f => "d" + f).Concat(Features.Select(f => "s" + f)));
        var dice = new Dice(ram.Number + 7_000_000);
        RamParameters well = StudyRam.Coarse(ram.Ram);
        foreach (RamCondition condition in Tried)
        {
            var fault = new Fault
            {
                Condition = condition,
                Severity = condition == RamCondition.Healthy ? 0 : dice.Between(0.2, 1),
                StarvedBy = dice.Pick(StarvedBy.LowLevel, StarvedBy.BlockedStrainer, StarvedBy.HalfShutGate),
                LeakAt = dice.Between(0.1, 0.9),
            };
            if (Examine(well, fault, ram, dice, out double arrived) is not { Signature: { } before } one)
            {
                continue;
            }

            string truth = string.Create(CultureInfo.InvariantCulture, $"{ram.Number},{condition.Code()},{fault.Severity:0.000}");
            Figure? flow = one.Flow.DeliveredM3PerS;
            foreach (string done in (string[])["again", "stroke", .. Mends.Where(m => m.Condition == condition).Select(m => m.Test)])
            {
                RamParameters ill = done == "stroke" ? well with { WasteValve = well.WasteValve with { TravelM = ShorterStroke * well.WasteValve.TravelM } } : well;
                RamAnalysis? after = Examine(ill, done is "again" or "stroke" ? fault : Fault.None, ram, dice, out _);
                if (after?.Signature is not { } now)
                {
                    continue;
                }

                IReadOnlyDictionary<Feature, FeatureDistance> change = ConditionModel.AgainstBaseline.Score(Comparison.ByBaseline(now, before)).Distances;
                IReadOnlyDictionary<Feature, FeatureDistance> site = ConditionModel.AgainstSite.Score(Comparison.BySite(now)).Distances;
                yield return string.Create(
                    CultureInfo.InvariantCulture, $"{truth},{done},{60_000 * flow?.Value:0.0000},{60_000 * flow?.U:0.0000},{60_000 * arrived:0.0000},")
                    + string.Join(',', Features.Select(f => Text(change, f)).Concat(Features.Select(f => Text(site, f))));
            }
        }
    }

    /// <summary>What each of the tests mends.</summary>
    public static IReadOnlyList<(string Test, RamCondition Condition)> Mends { get; } =
        [("intake", RamCondition.SupplyStarved), ("bleed", RamCondition.AirInDrivePipe), ("vent", RamCondition.AirVesselWaterlogged)];

    private static string Text(IReadOnlyDictionary<Feature, FeatureDistance> of, Feature feature) =>
        of.TryGetValue(feature, out FeatureDistance found) ? found.ZScore.ToString("0.000", CultureInfo.InvariantCulture) : "";

    private static RamAnalysis? Examine(RamParameters ram, Fault fault, StudyRam of, Dice dice, out double arrivedM3PerS)
    {
        var simulation = new RamSimulation(ram, of.Sensor, new SimulationOptions { Fault = fault, Seed = dice.Seed(), WarmUpS = WarmUpS });
        List<VirtualSample> samples = [.. simulation.Samples(LengthS)];
        arrivedM3PerS = simulation.Totals.ArrivedM3 / simulation.Totals.DurationS;
        if (simulation.Totals.Beats < 5)
        {
            return null;
        }

        var analyser = new RamAnalyser(of.Site);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("a record of the study");
    }
}
