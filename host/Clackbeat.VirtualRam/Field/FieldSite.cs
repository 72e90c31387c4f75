using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;

namespace Clackbeat.VirtualRam.Field;

/// <summary>The site of a drawn ram: as it is built, and as its keeper writes it down.</summary>
internal static class FieldSite
{
    private static readonly double[] RangesPa = [0.6e6, 1e6, 1.6e6, 2.5e6, 4e6, 6e6, 10e6];

    internal static RamSite Built(FieldDomain domain, Dice dice)
    {
        double head = dice.Log(domain.SupplyHeadM.Low, domain.SupplyHeadM.High);
        var site = new RamSite
        {
            Name = "a drawn ram",
            Supply = new Supply { HeadM = head, HeadUncertaintyM = 2 * domain.SiteErrors.LevelM, WaterTemperatureC = dice.Between(domain.WaterC.Low, domain.WaterC.High) },
            DrivePipe = new DrivePipe(Sections(domain, Math.Max(1.3 * head, dice.Log(domain.LengthM.Low, domain.LengthM.High)), dice)),
            Delivery = new Delivery { HeadM = head * dice.Log(domain.LiftOverFall.Low, domain.LiftOverFall.High) },
            AirVessel = new AirVessel { SnifterBoreM = dice.Chance(domain.SnifterShare) ? dice.Log(domain.SnifterBoreM.Low, domain.SnifterBoreM.High) : null },
            WasteValve = new WasteValve { Kind = KindOf(dice.Between(0, 1), domain) },
            Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = RangesPa[^1] },
        };
        site = site with { Supply = site.Supply with { StandPipe = StandPipe(site, domain, dice) } };
        site = site with { Supply = site.Supply with { OtherRams = site.Supply.StandPipe is not null && dice.Chance(domain.NeighbourShare) ? 1 : null } };
        return site with { Sensor = SensorFor(site, domain, dice) };
    }

    /// <summary>What the keeper writes: measured with a tape and a calliper, and not everything.</summary>
    internal static RamSite Told(RamSite built, FieldDomain domain, Dice dice)
    {
        (double length, double bore, double level) = domain.SiteErrors;
        IEnumerable<PipeSection> sections = built.DrivePipe.Sections.Select(s => s with
        {
            LengthM = s.LengthM * (1 + dice.Normal(length)),
            BoreM = s.BoreM * (1 + dice.Normal(bore)),
        });
        RamSite told = built with
        {
            DrivePipe = new DrivePipe(sections),
            Supply = built.Supply with { HeadM = built.Supply.HeadM + dice.Normal(level) },
        };
        return dice.Chance(domain.SilentShare)
            ? told with
            {
                Supply = told.Supply with { StandPipe = null, OtherRams = null },
                AirVessel = told.AirVessel with { SnifterBoreM = null },
                WasteValve = told.WasteValve with { Kind = null },
            }
            : told;
    }

    private static PipeSection[] Sections(FieldDomain domain, double lengthM, Dice dice)
    {
        double bore = dice.Log(domain.BoreM.Low, domain.BoreM.High);
        PipeSection lower = Section(domain, lengthM, bore, dice);
        if (!dice.Chance(domain.SectionsShare))
        {
            return [lower];
        }

        double upper = dice.Between(0.2, 0.6) * lengthM;
        double wider = bore * dice.Between(domain.UpperBoreRatio.Low, domain.UpperBoreRatio.High);
        // Half of such pipes go on in another material.
        return [dice.Chance(0.5) ? Section(domain, upper, wider, dice) : lower with { LengthM = upper, BoreM = wider }, lower with { LengthM = lengthM - upper }];
    }

    private static PipeSection Section(FieldDomain domain, double lengthM, double boreM, Dice dice)
    {
        (PipeMaterial material, Band ratio) = dice.Pick([.. domain.Materials]);
        return new PipeSection { Material = material, LengthM = lengthM, BoreM = boreM, WallM = boreM / dice.Between(ratio.Low, ratio.High) };
    }

    private static StandPipe? StandPipe(RamSite site, FieldDomain domain, Dice dice) => dice.Chance(domain.StandPipeShare)
        ? new StandPipe
        {
            BoreM = site.DrivePipe.Sections[0].BoreM * dice.Between(domain.StandPipeRatio.Low, domain.StandPipeRatio.High),
            FeedLengthM = site.DrivePipe.LengthM * dice.Between(0.5, 2),
            FeedBoreM = site.DrivePipe.Sections[0].BoreM * dice.Between(1.3, 2),
        }
        : null;

    private static WasteValveKind KindOf(double share, FieldDomain domain) => share switch
    {
        _ when share < domain.FloatingShare.Flap => WasteValveKind.Flap,
        _ when share < domain.FloatingShare.Flap + domain.FloatingShare.Spring => WasteValveKind.SpringPlug,
        _ => WasteValveKind.WeightedPlug,
    };

    /// <summary>A sensor that a careful keeper buys: the next range above the ceiling of the peaks; every other reads suction too.</summary>
    private static Sensor SensorFor(RamSite site, FieldDomain domain, Dice dice)
    {
        double ceiling = ExpectedFigures.For(site).Ram.PeakCeilingPa.High;
        return new Sensor
        {
            RangeLowPa = dice.Pick(0, -100e3),
            RangeHighPa = RangesPa.FirstOrDefault(r => r >= ceiling, RangesPa[^1]),
            ResponseTimeS = dice.Chance(domain.SlowSensorShare) ? dice.Log(domain.ResponseS.Low, domain.ResponseS.High) : 0.5e-3,
        };
    }
}
