using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.VirtualRam.Field;

/// <summary>
/// The rams that are drawn: ends of every parameter, and how often what a ram may have or lack is there. Ends are of what keepers,
/// bulletins and makers describe (common practice, from memory) unless a source stands beside them; the shares are ours.
/// </summary>
public sealed record FieldDomain
{
    /// <summary>The domain that is documented in docs/virtual-ram.md.</summary>
    public static FieldDomain Usual { get; } = new();

    /// <summary>
    /// Rams whose pipe neither creeps nor damps by unsteady friction, of one section from an open tank, by a quick logger: what a method
    /// made for the elastic pipe should find easy.
    /// </summary>
    public static FieldDomain Elastic { get; } = new()
    {
        Detail = PipeDetail.Elastic,
        SectionsShare = 0,
        StandPipeShare = 0,
        SnifterShare = 0,
        SlowSensorShare = 0,
        RatesHz = [500, 1000, 1000, 1000, 2000],
    };

    /// <summary>How much of a real pipe the rams have.</summary>
    public PipeDetail Detail { get; init; } = PipeDetail.Real;

    /// <summary>Supply head [m].</summary>
    public Band SupplyHeadM { get; init; } = new(0.8, 6);

    /// <summary>Lift over fall.</summary>
    public Band LiftOverFall { get; init; } = new(3, 14);

    /// <summary>Length of the drive pipe [m], and never under 1.3 supply heads.</summary>
    public Band LengthM { get; init; } = new(4, 40);

    /// <summary>Bore at the ram [m].</summary>
    public Band BoreM { get; init; } = new(0.025, 0.102);

    /// <summary>Water temperature [°C].</summary>
    public Band WaterC { get; init; } = new(4, 22);

    /// <summary>Materials of the drive pipe, each as likely, with the ratios of bore to wall they are sold in.</summary>
    public IReadOnlyList<(PipeMaterial Material, Band BoreOverWall)> Materials { get; init; } =
    [
        (PipeMaterial.GalvanisedSteel, new Band(9, 22)),
        (PipeMaterial.PvcU, new Band(12, 22)),
        (PipeMaterial.Pe100, new Band(7, 12)),
    ];

    /// <summary>Prompt modulus over that of the tables.</summary>
    public Band ModulusRatio { get; init; } = new(0.9, 1.12);

    /// <summary>Creep over that of the tables.</summary>
    public Band CreepRatio { get; init; } = new(0.4, 1.6);

    /// <summary>Unsteady friction over Vardy's and Brown's.</summary>
    public Band UnsteadyRatio { get; init; } = new(0.5, 1.5);

    /// <summary>Roughness over that of a new pipe: half as much either way.</summary>
    public Band RoughnessRatio { get; init; } = new(0.5, 1.5);

    /// <summary>Loss coefficient of strainer, entrance and bends.</summary>
    public Band IntakeLoss { get; init; } = new(0.5, 2);

    /// <summary>Free gas in a well pipe, by volume at the pressure of the air.</summary>
    public Band GasShare { get; init; } = new(1e-6, 1e-4);

    /// <summary>Share of rams with a pipe of two sections.</summary>
    public double SectionsShare { get; init; } = 0.25;

    /// <summary>Bore of the upper section over that of the lower.</summary>
    public Band UpperBoreRatio { get; init; } = new(1.05, 1.5);

    /// <summary>Share of rams behind a stand pipe.</summary>
    public double StandPipeShare { get; init; } = 0.15;

    /// <summary>Bore of a stand pipe over the drive pipe's.</summary>
    public Band StandPipeRatio { get; init; } = new(2.5, 6);

    /// <summary>Share of stand pipes on which another ram draws as well.</summary>
    public double NeighbourShare { get; init; } = 0.3;

    /// <summary>Share of rams with a snifter.</summary>
    public double SnifterShare { get; init; } = 0.4;

    /// <summary>Bore of a snifter [m].</summary>
    public Band SnifterBoreM { get; init; } = new(0.0006, 0.002);

    /// <summary>Share of waste valves that are flaps, and of those that are plugs on a soft spring; the rest is weighted.</summary>
    public (double Flap, double Spring) FloatingShare { get; init; } = (0.2, 0.15);

    /// <summary>Share of rams of the lively kind: bouncing valves, gas in the body.</summary>
    public double LivelyShare { get; init; } = 0.5;

    /// <summary>Samples a second.</summary>
    public IReadOnlyList<double> RatesHz { get; init; } = [50, 100, 200, 500, 1000, 1000, 1000, 2000];

    /// <summary>Response time of the sensor [s]; most answer within a millisecond.</summary>
    public Band ResponseS { get; init; } = new(0.0003, 0.01);

    /// <summary>Share of sensors that are slow, evenly in the logarithm over <see cref="ResponseS"/>; the others take 0.5 ms.</summary>
    public double SlowSensorShare { get; init; } = 0.2;

    /// <summary>Zero of the sensor, one standard deviation [Pa].</summary>
    public double ZeroPa { get; init; } = 1500;

    /// <summary>Gain of the sensor, one standard deviation.</summary>
    public double Gain { get; init; } = 0.003;

    /// <summary>What a site file gets wrong, one standard deviation: length and bore as shares, the level in metres.</summary>
    public (double Length, double Bore, double LevelM) SiteErrors { get; init; } = (0.005, 0.005, 0.01);

    /// <summary>Share of site files that leave out what they could say of snifter, stand pipe or the valve's kind.</summary>
    public double SilentShare { get; init; } = 0.3;
}
