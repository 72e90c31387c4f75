using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Model;

/// <summary>
/// The ram that the parameters move: laid out for the site, with the open valve, losses and wave speed that the record's analysis found.
/// </summary>
/// <param name="Site">The site, its level and wave speed as the record tells them.</param>
/// <param name="Designed">The ram laid out for it.</param>
/// <param name="OpenAreaM2">Effective area of the open waste valve to start from [m²].</param>
/// <param name="LiftingHeadM">Head across it that lifts the plug, to start from [m].</param>
/// <param name="LossFactor">Losses over those of the site, to start from.</param>
/// <param name="VesselHeadM">Head in the vessel, to start from [m].</param>
/// <param name="TheoryMPerS">Wave speed that material and wall lead to expect [m/s].</param>
public sealed record TwinFrame(
    RamSite Site, RamParameters Designed, double OpenAreaM2, double LiftingHeadM, double LossFactor, double VesselHeadM, double TheoryMPerS)
{
    /// <summary>Standard deviations of the parameters before the record is looked at, in their order.</summary>
    public IReadOnlyList<double> Spread { get; init; } = TwinParameters.Spreads(LeastWaveSpread, LeastLevelSpread);

    /// <summary>A wave speed is found within this at best, as a share.</summary>
    public const double LeastWaveSpread = 0.015;

    /// <summary>A level is known within this at best, as a share.</summary>
    public const double LeastLevelSpread = 0.005;

    // So much gas that a few beats don't move the head: the record gives the plateau's mean.
    private const double StandingGas = 1e4;
    private const double FrictionAtMPerS = 1;

    /// <summary>Free gas along the pipe that its parameter counts from, as a share of the volume at the pressure of the air.</summary>
    public const double UsualGasShare = 1e-5;

    // The head at which the record shows waves: that of the open phase.
    private const double OpenHeadShare = 0.3;

    // Gas slows a wave; a wall isn't stiffer than theory by more than this.
    private const double StiffestOverTheory = 1.08;

    /// <summary>Sets a frame up.</summary>
    /// <param name="site">The site, its level and wave speed as the record tells them.</param>
    /// <param name="valveConstant">Head lost in the open waste valve over the square of the pipe's velocity [s²/m]; null where unknown.</param>
    /// <param name="closingMPerS">Closing velocity [m/s]; null where unknown.</param>
    /// <param name="lossFactor">Losses over those of the site.</param>
    /// <param name="vesselHeadM">Head in the vessel [m].</param>
    /// <param name="theoryMPerS">Wave speed that the site file leads to expect [m/s].</param>
    /// <exception cref="Clackbeat.Site.InputException">The site can't carry a ram.</exception>
    public static TwinFrame Of(RamSite site, double? valveConstant, double? closingMPerS, double lossFactor, double vesselHeadM, double theoryMPerS)
    {
        RamDesign design = RamDesigner.Design(site);
        ValveParameters valve = design.Ram.WasteValve;
        double area = design.Ram.DrivePipe.AreaM2;
        double lift = valve.Floats ? 0.8 * valve.RestLiftM : valve.TravelM;
        double open = valveConstant is { } k ? area / Math.Sqrt(2 * Constants.GravityMPerS2 * k) : valve.OpenAreaM2(lift);
        double constant = Math.Pow(area / open, 2) / (2 * Constants.GravityMPerS2);
        double velocity = 0.97 * (closingMPerS ?? design.LiftOffVelocityMPerS);
        return new TwinFrame(site, design.Ram, open, constant * velocity * velocity, lossFactor, vesselHeadM, theoryMPerS);
    }

    /// <summary>The ram of some parameters.</summary>
    /// <param name="values">Values in the order of <see cref="TwinParameter"/>.</param>
    public RamParameters Ram(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double Factor(TwinParameter p) => Math.Exp(values[(int)p]);
        double late = Factor(TwinParameter.Lateness);
        double gas = UsualGasShare * Factor(TwinParameter.PipeGas);
        return Designed with
        {
            DrivePipe = Gassy(Designed.DrivePipe, gas, Factor(TwinParameter.WaveSpeed)),
            Upstream = [.. Designed.Upstream.Select(s => Gassy(s, gas, Factor(TwinParameter.WaveSpeed)))],
            Supply = Designed.Supply with
            {
                HeadM = Designed.Supply.HeadM * Factor(TwinParameter.SupplyHead),
                LossCoefficient = Loss(LossFactor * Factor(TwinParameter.Losses)),
            },
            WasteValve = Waste(
                OpenAreaM2 * Factor(TwinParameter.OpenArea),
                LiftingHeadM * Factor(TwinParameter.LiftingHead),
                1 / (1 + Math.Exp(-values[(int)TwinParameter.GapShare])),
                Factor(TwinParameter.PlugMass)),
            DeliveryValve = Designed.DeliveryValve with
            {
                MassKg = late * Designed.DeliveryValve.MassKg,
                InertanceS2PerM2 = late * Designed.DeliveryValve.InertanceS2PerM2,
                PreloadN = Designed.DeliveryValve.PreloadN / Math.Sqrt(late),
            },
            Body = Designed.Body with { GasM3 = Designed.Body.GasM3 * Factor(TwinParameter.BodyGas) },
            AirVessel = Designed.AirVessel with { GasM3 = StandingGas * Designed.AirVessel.GasM3 },
            DeliveryMain = Designed.DeliveryMain with { OutletHeadM = VesselHeadM * Factor(TwinParameter.VesselHead) },
        };
    }

    // The wave speed of the record is that of pipe and gas together: without the gas the pipe is as much quicker (A. B. Wood's mixture rule).
    private PipeParameters Gassy(PipeParameters pipe, double gasShare, double factor)
    {
        WaterParameters water = Designed.Water;
        double pressure = water.AtmospherePa - water.VapourPressurePa
            + (water.DensityKgPerM3 * Constants.GravityMPerS2 * OpenHeadShare * Designed.Supply.HeadM);
        double gas = water.DensityKgPerM3 * gasShare * water.AtmospherePa / (pressure * pressure);
        double shown = factor * pipe.WaveSpeedMPerS;
        double stiffest = Math.Max(shown, StiffestOverTheory * TheoryMPerS);
        double give = Math.Max(1 / (stiffest * stiffest), (1 / (shown * shown)) - gas);
        return pipe with { GasShare = gasShare, WaveSpeedMPerS = 1 / Math.Sqrt(give) };
    }

    // All losses in one, on the velocity head of the first section; the pipe's own friction stays and the rest makes up for it.
    private double Loss(double factor)
    {
        RamParameters ram = Designed;
        double first = ram.Sections[0].AreaM2;
        double friction = ram.Sections.Sum(s => FrictionFactor(s, ram.Water) * s.LengthM / s.BoreM * Math.Pow(first / s.AreaM2, 2));
        return Math.Max(-0.95, (factor * (1 + ram.Supply.LossCoefficient + friction)) - 1 - friction);
    }

    /// <summary>Friction factor of a section at a metre a second.</summary>
    /// <param name="section">The section.</param>
    /// <param name="water">The water.</param>
    public static double FrictionFactor(PipeParameters section, WaterParameters water) => Friction.DarcyFactor(
        Friction.Reynolds(FrictionAtMPerS, section.BoreM, water.KinematicViscosityM2PerS), section.RoughnessM / section.BoreM);

    private ValveParameters Waste(double openM2, double liftingM, double gapShare, double mass)
    {
        ValveParameters valve = Designed.WasteValve;
        double weight = Designed.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        if (valve.Floats)
        {
            // It has no open stop, so gap and passages are scaled together.
            double lift = 0.8 * valve.RestLiftM;
            double wider = openM2 / valve.OpenAreaM2(lift);
            double stronger = weight * valve.SeatAreaM2 * liftingM * valve.ForceShare(lift) / valve.OpeningForceN(lift);
            return valve with
            {
                GapWidthM = wider * valve.GapWidthM,
                PassageAreaM2 = wider * valve.PassageAreaM2,
                PreloadN = stronger * valve.PreloadN,
                SpringNPerM = stronger * valve.SpringNPerM,
                MassKg = mass * valve.MassKg,
            };
        }

        // Loss goes as 1/area²: of the whole, gapShare is in the gap.
        double force = weight * valve.SeatAreaM2 * liftingM * valve.ForceShareAtStop;
        return valve with
        {
            GapWidthM = openM2 / Math.Sqrt(gapShare) / valve.TravelM,
            PassageAreaM2 = openM2 / Math.Sqrt(1 - gapShare),
            PreloadN = force * valve.PreloadN / valve.OpeningForceN(valve.TravelM),
            SpringNPerM = force * valve.SpringNPerM / valve.OpeningForceN(valve.TravelM),
            MassKg = mass * valve.MassKg,
        };
    }
}
