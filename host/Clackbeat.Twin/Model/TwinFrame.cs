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
public sealed record TwinFrame(
    RamSite Site, RamParameters Designed, double OpenAreaM2, double LiftingHeadM, double LossFactor, double VesselHeadM)
{
    // So much gas that a few beats don't move the head: the record gives the plateau's mean.
    private const double StandingGas = 1e4;
    private const double FrictionAtMPerS = 1;

    /// <summary>Sets a frame up.</summary>
    /// <param name="site">The site, its level and wave speed as the record tells them.</param>
    /// <param name="valveConstant">Head lost in the open waste valve over the square of the pipe's velocity [s²/m]; null where unknown.</param>
    /// <param name="closingMPerS">Closing velocity [m/s]; null where unknown.</param>
    /// <param name="lossFactor">Losses over those of the site.</param>
    /// <param name="vesselHeadM">Head in the vessel [m].</param>
    /// <exception cref="Clackbeat.Site.InputException">The site can't carry a ram.</exception>
    public static TwinFrame Of(RamSite site, double? valveConstant, double? closingMPerS, double lossFactor, double vesselHeadM)
    {
        RamDesign design = RamDesigner.Design(site);
        ValveParameters valve = design.Ram.WasteValve;
        double area = design.Ram.DrivePipe.AreaM2;
        double lift = valve.Floats ? 0.8 * valve.RestLiftM : valve.TravelM;
        double open = valveConstant is { } k ? area / Math.Sqrt(2 * Constants.GravityMPerS2 * k) : valve.OpenAreaM2(lift);
        double constant = Math.Pow(area / open, 2) / (2 * Constants.GravityMPerS2);
        double velocity = 0.97 * (closingMPerS ?? design.LiftOffVelocityMPerS);
        return new TwinFrame(site, design.Ram, open, constant * velocity * velocity, lossFactor, vesselHeadM);
    }

    /// <summary>The ram of some parameters.</summary>
    /// <param name="values">Values in the order of <see cref="TwinParameter"/>.</param>
    public RamParameters Ram(IReadOnlyList<double> values)
    {
        ArgumentNullException.ThrowIfNull(values);
        double Factor(TwinParameter p) => Math.Exp(values[(int)p]);
        double late = Factor(TwinParameter.Lateness);
        return Designed with
        {
            Supply = Designed.Supply with { LossCoefficient = Loss(LossFactor * Factor(TwinParameter.Losses)) },
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
