using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Field;

namespace Clackbeat.DiagnosisStudy.Flow;

/// <summary>One record of a drawn ram for the study of flow: what is wrong with it, and how badly.</summary>
/// <param name="Ram">The ram.</param>
/// <param name="Name">Name of the case in the table.</param>
/// <param name="Fault">What is wrong.</param>
internal sealed record FlowCase(FieldRam Ram, string Name, Fault Fault)
{
    /// <summary>Length of a record [s].</summary>
    public const double LengthS = 40;

    // Below this the fault hardly changes the ram.
    private const double LeastSeverity = 0.2;

    private static readonly RamCondition[] Alone =
    [
        RamCondition.WasteValveSticking, RamCondition.DeliveryValveLate, RamCondition.AirVesselWaterlogged, RamCondition.AirInDrivePipe,
        RamCondition.DeliveryRestricted,
    ];

    /// <summary>The cases of a ram. Leaks are left out: their delivered flow is an upper bound, which another study looks at.</summary>
    public static IEnumerable<FlowCase> Of(FieldRam ram)
    {
        var dice = new Dice(FieldRam.SeedOf(ram.Set, ram.Number) + 3_000_000);
        yield return new FlowCase(ram, "healthy", Fault.None);
        foreach (RamCondition condition in Alone)
        {
            yield return new FlowCase(ram, condition.Code(), new Fault { Condition = condition, Severity = dice.Between(LeastSeverity, 1) });
        }

        foreach (StarvedBy way in Enum.GetValues<StarvedBy>())
        {
            yield return new FlowCase(
                ram, way.ToString(), new Fault { Condition = RamCondition.SupplyStarved, StarvedBy = way, Severity = dice.Between(LeastSeverity, 1) });
        }
    }

    /// <summary>A running simulation of the case.</summary>
    public RamSimulation Start()
    {
        // What happens beat by beat the simulation must know; what lasts is in the parameters.
        bool acts = Fault.Condition is RamCondition.WasteValveSticking;
        return new RamSimulation(
            acts ? Ram.Ram : FaultEffects.Apply(Ram.Ram, Fault), Ram.Sensor,
            new SimulationOptions { Fault = acts ? Fault : Fault.None, Seed = FieldRam.SeedOf(Ram.Set, Ram.Number) });
    }
}
