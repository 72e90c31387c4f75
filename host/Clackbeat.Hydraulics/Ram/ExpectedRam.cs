using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Hydraulics.Ram;

/// <summary>
/// What a ram of these dimensions may be expected to do, as bands: the valve's set-up decides most of it and is seldom
/// known. Made to stand beside a first measurement, not to design a pump.
/// </summary>
/// <remarks>
/// Each band spans the elastic closed-form beat (<see cref="RamCycle.Elastic"/>) over the assumptions in
/// <see cref="RamAssumptions"/>; the lower end of the delivered flow takes the share of theory that a published ram reached
/// (41 %, AguaClara ram pump team, Cornell University, report of summer 2019).
/// </remarks>
public sealed record ExpectedRam
{
    /// <summary>
    /// Share of the ideal delivered flow that a published home-made ram reached: 19.948 of 48.73 mL/s with spring K428, both of one
    /// rig in one report (AguaClara, summer 2019). With another spring it reached 26.36 mL/s, 54 %.
    /// </summary>
    public const double MeasuredShareOfTheory = 0.409;

    private ExpectedRam()
    {
    }

    /// <summary>Steady velocity with the waste valve held open [m/s].</summary>
    public required Band TerminalVelocityMPerS { get; init; }

    /// <summary>Velocity as the waste valve shuts [m/s].</summary>
    public required Band ClosingVelocityMPerS { get; init; }

    /// <summary>Least closing velocity that lifts any water to the delivery head, g h / a [m/s].</summary>
    public required double LeastClosingVelocityMPerS { get; init; }

    /// <summary>Beats a minute.</summary>
    public required Band BeatsPerMin { get; init; }

    /// <summary>Delivered flow [m³/s].</summary>
    public required Band DeliveredM3PerS { get; init; }

    /// <summary>Waste flow [m³/s].</summary>
    public required Band WasteM3PerS { get; init; }

    /// <summary>D'Aubuisson efficiency.</summary>
    public required Band DAubuisson { get; init; }

    /// <summary>Ceiling of the peak, static plus ρ a V [Pa gauge].</summary>
    public required Band PeakCeilingPa { get; init; }

    /// <summary>Pipe period 2L/a [s].</summary>
    public required double PipePeriodS { get; init; }

    /// <summary>Where the ram leaves the usual proportions.</summary>
    public required IReadOnlyList<ProportionNote> Notes { get; init; }

    /// <summary>Works the bands out for a drive pipe of one bore.</summary>
    /// <param name="ram">Lengths, heads and wave speed.</param>
    /// <param name="water">The water.</param>
    /// <param name="roughnessM">Absolute roughness of the drive pipe [m].</param>
    /// <param name="assumptions">What is taken for the parts nobody measured; null for the usual.</param>
    public static ExpectedRam For(
        RamGeometry ram, WaterProperties water, double roughnessM, RamAssumptions? assumptions = null)
    {
        CheckDimensions(ram);
        var pipe = new SeriesPipe([new PipeReach(ram.LengthM, ram.BoreM, ram.WaveSpeedMPerS) { RoughnessM = roughnessM }]);
        return For(RamGeometry.Of(pipe, ram.SupplyHeadM, ram.DeliveryHeadM), water, assumptions);
    }

    /// <summary>Works the bands out for a drive pipe of sections, each with its own roughness.</summary>
    /// <param name="ram">The pipe and the heads.</param>
    /// <param name="water">The water.</param>
    /// <param name="assumptions">What is taken for the parts nobody measured; null for the usual.</param>
    public static ExpectedRam For(RamGeometry ram, WaterProperties water, RamAssumptions? assumptions = null)
    {
        CheckDimensions(ram);
        RamAssumptions assumed = assumptions ?? new RamAssumptions();
        var corners = Corners(ram, water, assumed).ToList();
        var working = corners.Where(c => c.DeliveredM3 > 0).DefaultIfEmpty(corners[^1]).ToList();
        IEnumerable<double> ceilings = corners.Select(c => Surge.CeilingPa(
            Head.ToPressurePa(ram.SupplyHeadM, water.DensityKgPerM3),
            water.DensityKgPerM3,
            ram.KnockWaveSpeedMPerS * ram.Pipe.EchoGain,
            c.Closing));
        return new ExpectedRam
        {
            TerminalVelocityMPerS = Band.Of(corners.Select(c => c.Terminal)),
            ClosingVelocityMPerS = Band.Of(working.Select(c => c.Closing)),
            LeastClosingVelocityMPerS = Constants.GravityMPerS2 * ram.DeliveryHeadM / ram.KnockWaveSpeedMPerS,
            BeatsPerMin = Band.Of(working.Select(c => 60 / c.PeriodS)),
            DeliveredM3PerS = Lowered(Band.Of(working.Select(c => c.DeliveredM3 / c.PeriodS))),
            WasteM3PerS = Band.Of(working.Select(c => c.WasteM3 / c.PeriodS)),
            DAubuisson = Lowered(Band.Of(working.Select(c => RamEfficiency.DAubuisson(
                c.DeliveredM3, c.WasteM3, ram.SupplyHeadM, ram.DeliveryHeadM)))),
            PeakCeilingPa = Band.Of(ceilings),
            PipePeriodS = ram.PipePeriodS,
            Notes = [.. RamProportions.Notes(ram, corners.Any(c => c.DeliveredM3 > 0))],
        };
    }

    private static Band Lowered(Band ideal) => ideal with { Low = MeasuredShareOfTheory * ideal.Low };

    private static IEnumerable<Corner> Corners(
        RamGeometry ram, WaterProperties water, RamAssumptions assumed)
    {
        foreach (double valveLoss in new[] { assumed.WasteValveLoss.High, assumed.WasteValveLoss.Low })
        {
            // 1 is the velocity head that leaves with the waste water.
            double terminal = Friction.SteadyVelocityMPerS(
                ram.SupplyHeadM, ram.Pipe, assumed.MinorLoss, 1 + valveLoss, water);
            foreach (double closing in assumed.ClosingVelocities(terminal))
            {
                yield return CornerOf(ram, assumed, terminal, closing, assumed.RecoilPipePeriods.Low);
                yield return CornerOf(ram, assumed, terminal, closing, assumed.RecoilPipePeriods.High);
            }
        }
    }

    private static Corner CornerOf(
        RamGeometry ram, RamAssumptions assumed, double terminal, double closing, double recoilPeriods)
    {
        var cycle = RamCycle.Elastic(ram, terminal, closing);
        double recoil = recoilPeriods * ram.PipePeriodS;
        // While the plug travels, water still runs to waste at half the closing velocity on average.
        double spilt = ram.AreaM2 * closing * assumed.ClosureTimeS / 2;
        return new Corner(
            terminal,
            closing,
            cycle.PeriodS + recoil + assumed.ClosureTimeS,
            cycle.DeliveredM3,
            cycle.WasteM3 + spilt);
    }

    private static void CheckDimensions(RamGeometry ram)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ram.LengthM);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ram.BoreM);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ram.SupplyHeadM);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(ram.WaveSpeedMPerS);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(ram.DeliveryHeadM, ram.SupplyHeadM);
    }

    private readonly record struct Corner(
        double Terminal, double Closing, double PeriodS, double DeliveredM3, double WasteM3);
}
