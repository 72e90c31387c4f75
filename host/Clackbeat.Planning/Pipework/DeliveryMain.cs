using System.Globalization;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Planning.Pipework;

/// <summary>The delivery main: polyethylene, as small as its friction allows, in a class that bears the lift.</summary>
public sealed record DeliveryMain
{
    // Friction of a few per cent of the lift costs as much of the water; agencies' manuals ask for no more (common practice).
    private const double FrictionShare = 0.05;

    // The ram's pulse that the air vessel lets through, and the pressure of a blocked main: half as much again as the lift (common practice).
    private const double Reserve = 1.5;

    private const double Inch = 0.0254;

    // Outside diameters of EN 12201-2, by which such pipe is sold.
    private static readonly (string Size, double OutsideM)[] MetricSizes =
        [.. new[] { 20, 25, 32, 40, 50, 63, 75, 90, 110, 125, 160 }.Select(mm => (string.Create(CultureInfo.InvariantCulture, $"{mm} mm"), mm / 1000.0))];

    // Iron pipe sizes of ASTM D3035 and F714, as sold in North America; their outside diameters are those of steel pipe (ASME B36.10M).
    private static readonly (string Size, double OutsideM)[] InchSizes =
    [
        ("1/2 in", 0.840 * Inch), ("3/4 in", 1.050 * Inch), ("1 in", 1.315 * Inch), ("1-1/4 in", 1.660 * Inch), ("1-1/2 in", 1.900 * Inch),
        ("2 in", 2.375 * Inch), ("3 in", 3.500 * Inch), ("4 in", 4.500 * Inch), ("6 in", 6.625 * Inch),
    ];

    /// <summary>PE100 by its outside diameter, or PE4710 by iron pipe size.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Length [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Nobody gave the length; three times the lift was taken, a slope of a third.</summary>
    public required bool IsLengthAssumed { get; init; }

    /// <summary>The size as it is sold: the outside diameter in millimetres, or the nominal size in inches.</summary>
    public required string Size { get; init; }

    /// <summary>Outside diameter [m].</summary>
    public required double OutsideM { get; init; }

    /// <summary>Bore [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Class, such as "SDR 17".</summary>
    public required string Class { get; init; }

    /// <summary>Rating in cold water [Pa].</summary>
    public required double RatedPa { get; init; }

    /// <summary>Head lost to friction at the upper end of the delivered flow [m].</summary>
    public required double FrictionM { get; init; }

    /// <summary>No class known bears the lift with the reserve.</summary>
    public required bool IsOverRated { get; init; }

    /// <summary>Chooses the main.</summary>
    /// <param name="flowM3PerS">Largest flow expected [m³/s].</param>
    /// <param name="liftM">Lift [m].</param>
    /// <param name="lengthM">Length [m]; null for three times the lift.</param>
    /// <param name="water">The water.</param>
    /// <param name="inInches">Take North American pipe.</param>
    public static DeliveryMain Choose(double flowM3PerS, double liftM, double? lengthM, WaterProperties water, bool inInches = false)
    {
        PipeMaterial material = inInches ? PipeMaterial.Pe4710 : PipeMaterial.Pe100;
        double length = lengthM ?? Math.Max(3 * liftM, 10);
        double needPa = Reserve * Head.ToPressurePa(liftM, water.DensityKgPerM3);
        List<CataloguePipe> classes =
        [
            .. PipeCatalogue.All.Where(p => p.Material == material && p is { DimensionRatio: not null, RatedPa: not null }).OrderBy(p => p.RatedPa),
        ];
        CataloguePipe chosen = classes.FirstOrDefault(p => p.RatedPa >= needPa) ?? classes[^1];
        DeliveryMain? main = null;
        foreach ((string size, double outsideM) in inInches ? InchSizes : MetricSizes)
        {
            double boreM = outsideM * (1 - (2 / chosen.DimensionRatio!.Value));
            main = new DeliveryMain
            {
                Material = material,
                LengthM = length,
                IsLengthAssumed = lengthM is null,
                Size = size,
                OutsideM = outsideM,
                BoreM = boreM,
                Class = chosen.Class,
                RatedPa = chosen.RatedPa!.Value,
                FrictionM = FrictionOf(flowM3PerS, length, boreM, material, water),
                IsOverRated = chosen.RatedPa < needPa,
            };
            if (main.FrictionM <= FrictionShare * liftM)
            {
                break;
            }
        }

        return main!;
    }

    private static double FrictionOf(double flow, double length, double bore, PipeMaterial material, WaterProperties water)
    {
        double velocity = flow / (Math.PI / 4 * bore * bore);
        double roughness = MaterialProperties.TryGet(material)?.RoughnessM ?? 1.5e-6;
        double factor = Friction.DarcyFactor(Friction.Reynolds(velocity, bore, water.KinematicViscosityM2PerS), roughness / bore);
        return Friction.HeadLossM(factor, length, bore, velocity);
    }
}
