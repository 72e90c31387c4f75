using Clackbeat.Hydraulics.Water;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Design;

/// <summary>
/// Makes up a ram that beats well at a site, from what the site file says and good practice for the rest.
/// Proportions without a source beside them are common practice, from memory.
/// </summary>
public static class RamDesigner
{
    /// <summary>Loss of strainer, entrance and a bend or two where the site file says nothing.</summary>
    private const double UsualMinorLoss = 0.8;

    /// <summary>Designs the ram.</summary>
    /// <param name="site">The site.</param>
    /// <param name="character">How it is made.</param>
    /// <param name="detail">How much of a real pipe it has.</param>
    /// <exception cref="InputException">The site can't carry a ram.</exception>
    public static RamDesign Design(
        RamSite site, RamCharacter character = RamCharacter.Smooth, PipeDetail detail = PipeDetail.Real)
    {
        ArgumentNullException.ThrowIfNull(site);
        CheckHeads(site);
        var hydraulics = SiteHydraulics.Of(site);
        var warnings = new List<Fact>();
        if (hydraulics.WaveSpeedSource == WaveSpeedSource.Assumed)
        {
            warnings.Add(Fact.Of("virtual.wave-speed-guessed"));
        }

        var water = new WaterParameters
        {
            DensityKgPerM3 = hydraulics.Water.DensityKgPerM3,
            KinematicViscosityM2PerS = hydraulics.Water.KinematicViscosityM2PerS,
            VapourPressurePa = hydraulics.Water.VapourPressurePa,
            AtmospherePa = site.AtmospherePa,
        };
        var supply = new SupplyParameters
        {
            HeadM = site.Supply.HeadM,
            LossCoefficient = site.DrivePipe.MinorLossCoefficient ?? UsualMinorLoss,
            SubmergenceM = Math.Min(0.3, 0.2 * site.Supply.HeadM),
            StandPipe = DrivePipeDesign.StandPipe(site, hydraulics.Water),
        };
        IReadOnlyList<PipeParameters> sections = DrivePipeDesign.Sections(hydraulics, detail);
        PipeParameters pipe = RamParameters.ColumnOf(sections);
        var aim = Aim.Choose(water, supply, pipe, site.Delivery.HeadM, warnings);
        bool lively = character == RamCharacter.Lively;
        var ram = new RamParameters
        {
            Water = water,
            Supply = supply,
            DrivePipe = sections[^1],
            Upstream = [.. sections.Take(sections.Count - 1)],
            UnsteadyFriction = detail == PipeDetail.Real ? 1 : 0,
            Body = BodyFor(pipe, site.AirVessel, lively),
            WasteValve = WasteValveDesign.For(site.WasteValve, site.Delivery.HeadM, water, pipe, aim, lively),
            DeliveryValve = DeliveryValveDesign.For(site.Delivery.HeadM, water, pipe, aim, lively),
            AirVessel = new VesselParameters { GasM3 = GasIn(site.AirVessel, aim) },
            DeliveryMain = MainFor(site.Delivery, aim),
            BeatScatter = lively ? 0.02 : 0.004,
        };
        return new RamDesign
        {
            Ram = ram,
            Sensor = SensorFor(site.Sensor),
            LiftOffVelocityMPerS = aim.VelocityMPerS,
            Warnings = warnings,
        };
    }

    /// <summary>Roughly what a ram delivers, by the rigid-column cycle [m³/s].</summary>
    public static double ExpectedDeliveryM3PerS(RamParameters ram)
    {
        ArgumentNullException.ThrowIfNull(ram);
        return RigidCycle.Of(ram).DeliveryM3PerS;
    }

    /// <summary>The sensor as a site file describes it.</summary>
    public static SensorParameters SensorFor(Sensor sensor)
    {
        ArgumentNullException.ThrowIfNull(sensor);
        // A second-order sensor of damping 0.7 rises from 10 to 90 % of a step in 2.15/(2 π f).
        double frequency = sensor.ResponseTimeS is { } rise and > 0 ? 2.15 / (2 * Math.PI * rise) : 2000;
        return new SensorParameters
        {
            NaturalFrequencyHz = Math.Clamp(frequency, 1, 5000),
            RangeLowPa = sensor.RangeLowPa,
            RangeHighPa = sensor.RangeHighPa,
            HeightM = sensor.HeightM,
            NoisePa = 2.5e-4 * (sensor.RangeHighPa - sensor.RangeLowPa),
        };
    }

    private static void CheckHeads(RamSite site)
    {
        if (site.Delivery.HeadM <= 1.2 * site.Supply.HeadM)
        {
            throw InputException.Of("virtual.no-lift");
        }
    }

    private static BodyParameters BodyFor(PipeParameters pipe, AirVessel vessel, bool lively)
    {
        // A body of a quarter metre of pipe; iron walls and water together give about 1/1.5 GPa.
        double size = Math.Pow(pipe.BoreM / 0.05, 3);
        return new BodyParameters
        {
            ComplianceM2 = 0.25 * pipe.AreaM2 * 1000 * Constants.GravityMPerS2 / 1.5e9,
            GasM3 = (lively ? 4e-7 : 1e-7) * size,
            VolumeM3 = 0.25 * pipe.AreaM2,
            SnifterAreaM2 = vessel.SnifterBoreM is { } bore ? Orifice.SharpEdged * Math.PI / 4 * bore * bore : 0,
        };
    }

    /// <summary>Gas of 30 deliveries a beat (common practice: 20 to 50), or 0.6 of the vessel that is there.</summary>
    private static double GasIn(AirVessel vessel, Aim aim) =>
        vessel.VolumeM3 is { } volume ? 0.6 * volume : 30 * aim.Cycle.DeliveredM3;

    private static MainParameters MainFor(Delivery delivery, Aim aim)
    {
        // Half a metre a second in the main keeps its friction a few per cent of the lift.
        double bore = Math.Sqrt(aim.Cycle.DeliveryM3PerS / 0.5 * 4 / Math.PI);
        return new MainParameters
        {
            OutletHeadM = delivery.HeadM,
            LengthM = delivery.PipeLengthM ?? Math.Max(15, 3 * delivery.HeadM),
            BoreM = delivery.PipeBoreM ?? Math.Max(0.013, bore),
            RoughnessM = 1e-5,
            LossCoefficient = 3,
        };
    }
}
