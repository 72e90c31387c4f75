using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Field;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.DiagnosisStudy.Rams;

/// <summary>One record to be made of a ram: what is wrong with it, and how it is sampled.</summary>
/// <param name="Number">Number within the ram's cases; 0 is the baseline.</param>
/// <param name="Faults">None, one or two.</param>
/// <param name="Sensor">The sensor with its errors.</param>
/// <param name="Ram">The ram on that day, well.</param>
/// <param name="Seed">Seed of what is random while it runs.</param>
public sealed record StudyCase(int Number, IReadOnlyList<Fault> Faults, SensorParameters Sensor, RamParameters Ram, int Seed)
{
    private const int HealthyCases = 4;
    private const int PairCases = 2;
    private const int FirstLater = 22;

    // Healthy days, a leak and a pair that a ram to train on does without: another ram teaches more.
    private static readonly int[] Spare = [3, 4, 15, 18];

    // As often a keeper changes how fast the logger samples.
    private const double OtherRate = 0.3;

    // Below this even the truth hardly differs from a well ram's.
    private const double LeastSeverity = 0.2;

    private const double WarmUpS = 10;

    private static readonly RamCondition[] Beating =
    [
        RamCondition.WasteValveSticking, RamCondition.WasteValveLeaking, RamCondition.DeliveryValveLeaking,
        RamCondition.DeliveryValveLate, RamCondition.AirVesselWaterlogged, RamCondition.AirInDrivePipe,
        RamCondition.SupplyStarved, RamCondition.DeliveryRestricted,
    ];

    /// <summary>
    /// All cases of a ram: its baseline, healthy days, each condition alone (the leaks, which are hard to tell, twice), some pairs, a
    /// sensor fault, and a stop with the waste valve shut and one with it open. Rams to train on have fewer healthy days and pairs, and do
    /// without these last three, which no model of the beat learns from. Then the conditions that joined the study later.
    /// </summary>
    public static IEnumerable<StudyCase> Of(StudyRam ram)
    {
        var dice = new Dice(ram.Number + 1_000_000);
        var faults = new List<Fault[]> { Array.Empty<Fault>() };
        faults.AddRange(Enumerable.Range(0, HealthyCases).Select(_ => Array.Empty<Fault>()));
        faults.AddRange(Beating.Select(c => new[] { FaultOf(c, dice) }));
        faults.Add([FaultOf(RamCondition.SupplyStarved, dice) with { StarvedBy = StarvedBy.BlockedStrainer }]);
        faults.Add([FaultOf(RamCondition.SupplyStarved, dice) with { StarvedBy = StarvedBy.HalfShutGate }]);
        faults.Add([FaultOf(RamCondition.WasteValveLeaking, dice)]);
        faults.Add([FaultOf(RamCondition.DeliveryValveLeaking, dice)]);
        faults.AddRange(Enumerable.Range(0, PairCases).Select(_ => Pair(dice)));
        if (StudyRam.SetOf(ram.Number) != FieldSet.Choosing)
        {
            faults.Add([FaultOf(RamCondition.SensorFault, dice) with { SensorFault = dice.Pick(Enum.GetValues<SensorFaultKind>()) }]);
            faults.Add([StopOf(RamCondition.StoppedShut, ram)]);
            faults.Add([StopOf(RamCondition.StoppedOpen, ram)]);
        }

        for (int number = 0; number < faults.Count; number++)
        {
            var one = new StudyCase(number, faults[number], SensorOf(ram, number, dice), Today(ram.Ram, number, dice), dice.Seed());
            if (StudyRam.SetOf(ram.Number) != FieldSet.Choosing || !Spare.Contains(number))
            {
                yield return one;
            }
        }

        foreach (StudyCase one in Later(ram))
        {
            yield return one;
        }
    }

    /// <summary>
    /// Conditions that joined later, by dice of their own and numbers after all others, so that records made before stay what they are: a
    /// leaking main twice, and worn rubber.
    /// </summary>
    private static IEnumerable<StudyCase> Later(StudyRam ram)
    {
        var dice = new Dice(ram.Number + 3_000_000);
        int number = FirstLater;
        foreach (RamCondition condition in new[] { RamCondition.DeliveryMainLeaking, RamCondition.DeliveryMainLeaking, RamCondition.WasteValveWorn })
        {
            Fault fault = FaultOf(condition, dice) with { LeakAt = dice.Between(0.1, 0.9) };
            yield return new StudyCase(number, [fault], SensorOf(ram, number, dice), Today(ram.Ram, number, dice), dice.Seed());
            number++;
        }
    }

    /// <summary>Whether the ram is to stop within the record.</summary>
    public bool Stops => Faults.Any(IsStop);

    /// <summary>A running simulation of the case.</summary>
    public RamSimulation Start()
    {
        RamParameters ram = Ram;
        Fault last = Fault.None;
        foreach (Fault fault in Faults)
        {
            // What happens beat by beat the simulation must know; what lasts is in the parameters.
            bool acts = fault.Condition is RamCondition.WasteValveSticking or RamCondition.SensorFault || IsStop(fault);
            ram = acts ? ram : FaultEffects.Apply(ram, fault);
            last = acts ? fault : last;
        }

        return new RamSimulation(
            StudyRam.Coarse(ram), Sensor, new SimulationOptions { Fault = last, Seed = Seed, WarmUpS = WarmUpS });
    }

    private static bool IsStop(Fault fault) => fault.Condition is RamCondition.StoppedShut or RamCondition.StoppedOpen;

    /// <summary>A stop somewhere in the record.</summary>
    private static Fault StopOf(RamCondition condition, StudyRam ram) =>
        new() { Condition = condition, Severity = 1, StopsAtS = new Dice(ram.Number + (int)condition + 2_000_000).Between(8, 22) };

    private static Fault[] Pair(Dice dice)
    {
        RamCondition one = dice.Pick(Beating);
        RamCondition other = dice.Pick([.. Beating.Where(c => c != one)]);
        return [FaultOf(one, dice), FaultOf(other, dice)];
    }

    private static Fault FaultOf(RamCondition condition, Dice dice) => new()
    {
        Condition = condition,
        Severity = dice.Between(LeastSeverity, 1),
        StarvedBy = dice.Pick(StarvedBy.LowLevel, StarvedBy.LowLevel, StarvedBy.BlockedStrainer),
    };

    /// <summary>The baseline is recorded with care; later records with whatever is at hand.</summary>
    private static SensorParameters SensorOf(StudyRam ram, int number, Dice dice) => number == 0
        ? ram.Sensor
        : ram.Sensor with
        {
            OffsetPa = ram.Sensor.OffsetPa + (dice.Chance(0.5) ? dice.Between(-6000, 6000) : dice.Between(-500, 500)),
            Gain = ram.Sensor.Gain + (dice.Chance(0.3) ? dice.Between(-0.01, 0.01) : dice.Between(-0.001, 0.001)),
            NoisePa = ram.Sensor.NoisePa * dice.Pick(1.0, 1, 2, 5),
            RateHz = dice.Chance(OtherRate) ? dice.Pick([.. ram.RatesHz]) : ram.Sensor.RateHz,
            JitterS = dice.Pick(0, 0, 1.2e-4),
        };

    /// <summary>No two days are alike: the level moves by half a per cent, the vessel's air by some more.</summary>
    private static RamParameters Today(RamParameters ram, int number, Dice dice) => number == 0
        ? ram
        : ram with
        {
            Supply = ram.Supply with { HeadM = ram.Supply.HeadM * (1 + dice.Normal(0.005)) },
            AirVessel = ram.AirVessel with { GasM3 = ram.AirVessel.GasM3 * (1 + dice.Normal(0.05)) },
            BeatScatter = ram.BeatScatter * dice.Log(0.8, 1.25),
        };
}
