using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Site;
using Clackbeat.Site.Model;
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
    /// <exception cref="InputException">The site can't carry a ram.</exception>
    public static RamDesign Design(RamSite site, RamCharacter character = RamCharacter.Smooth)
    {
        ArgumentNullException.ThrowIfNull(site);
        CheckHeads(site);
        var hydraulics = SiteHydraulics.Of(site);
        var warnings = new List<string>();
        if (hydraulics.WaveSpeedSource == WaveSpeedSource.Assumed)
        {
            warnings.Add(
                "The drive pipe's wave speed is a guess, since nothing is known of its material: give wave_speed or a material "
                + "in [drive_pipe].");
        }

        var water = new WaterParameters
        {
            DensityKgPerM3 = hydraulics.Water.DensityKgPerM3,
            KinematicViscosityM2PerS = hydraulics.Water.KinematicViscosityM2PerS,
            VapourPressurePa = hydraulics.Water.VapourPressurePa,
            AtmospherePa = Constants.StandardAtmospherePa,
        };
        var supply = new SupplyParameters
        {
            HeadM = site.Supply.HeadM,
            LossCoefficient = site.DrivePipe.MinorLossCoefficient ?? UsualMinorLoss,
            SubmergenceM = Math.Min(0.3, 0.2 * site.Supply.HeadM),
        };
        var pipe = Pipe(site.DrivePipe, hydraulics.WaveSpeedMPerS);
        var aim = Aim.Choose(water, supply, pipe, site.Delivery.HeadM, warnings);
        var lively = character == RamCharacter.Lively;
        var ram = new RamParameters
        {
            Water = water,
            Supply = supply,
            DrivePipe = pipe,
            Body = BodyFor(pipe, lively),
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
        var frequency = sensor.ResponseTimeS is { } rise and > 0 ? 2.15 / (2 * Math.PI * rise) : 2000;
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
            throw new InputException(
                "A ram lifts water above its supply: [delivery] head must be well above [supply] head "
                + "(at least 1.2 times, usually 3 to 15 times).");
        }
    }

    private static PipeParameters Pipe(DrivePipe pipe, double waveSpeedMPerS)
    {
        var material = MaterialProperties.TryGet(pipe.Material);
        var (give, time) = SlowGiveOf(pipe.Material);
        return new PipeParameters
        {
            SlowGive = give,
            SlowGiveTimeS = time,
            LengthM = pipe.LengthM,
            BoreM = pipe.BoreM,
            RoughnessM = pipe.RoughnessM ?? material?.RoughnessM ?? 5e-5,
            WaveSpeedMPerS = waveSpeedMPerS,
        };
    }

    /// <summary>
    /// Delayed compliance. Plastics creep: the fast end of what transient tests on pipes show (D. Covas et al., J. Hydraul. Res.
    /// 43 (2005) 56, doi 10.1080/00221680509500111, for PE; its order of magnitude, from memory). A stiff pipe has next to
    /// none, but 5 bubbles in a million parts of water at 2 bar give 4 % at 1250 m/s (A. B. Wood's mixture rule).
    /// </summary>
    private static (double Give, double TimeS) SlowGiveOf(PipeMaterial material) => material switch
    {
        PipeMaterial.Pe100 or PipeMaterial.Pe80 or PipeMaterial.Pe4710 => (0.12, 5e-3),
        PipeMaterial.PvcU or PipeMaterial.PvcO or PipeMaterial.Abs => (0.06, 2e-3),
        _ => (0.04, 1e-3),
    };

    private static BodyParameters BodyFor(PipeParameters pipe, bool lively)
    {
        // A body of a quarter metre of pipe; iron walls and water together give about 1/1.5 GPa.
        var size = Math.Pow(pipe.BoreM / 0.05, 3);
        return new BodyParameters
        {
            ComplianceM2 = 0.25 * pipe.AreaM2 * 1000 * Constants.GravityMPerS2 / 1.5e9,
            GasM3 = (lively ? 4e-7 : 1e-7) * size,
        };
    }

    /// <summary>Gas of 30 deliveries a beat (common practice: 20 to 50), or 0.6 of the vessel that is there.</summary>
    private static double GasIn(AirVessel vessel, Aim aim) =>
        vessel.VolumeM3 is { } volume ? 0.6 * volume : 30 * aim.Cycle.DeliveredM3;

    private static MainParameters MainFor(Delivery delivery, Aim aim)
    {
        // Half a metre a second in the main keeps its friction a few per cent of the lift.
        var bore = Math.Sqrt(aim.Cycle.DeliveryM3PerS / 0.5 * 4 / Math.PI);
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
