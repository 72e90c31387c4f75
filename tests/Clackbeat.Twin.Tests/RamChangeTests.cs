using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Twin.Changes;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Tests;

public class RamChangeTests
{
    private static readonly RamSite Steel = new()
    {
        Name = "steel",
        Supply = new Supply { HeadM = 2.5, WaterTemperatureC = 20 },
        DrivePipe = new DrivePipe { Material = PipeMaterial.GalvanisedSteel, LengthM = 10, BoreM = 0.05, WallM = 0.0035, WaveSpeedMPerS = 1250 },
        Delivery = new Delivery { HeadM = 16 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    // A. R. D. Thorley, Fluid Transients in Pipeline Systems (2004): about 300 m/s in polyethylene of SDR 11, 1200 to 1350 m/s in steel.
    [Fact]
    public void A_pipe_of_another_material_takes_its_wave_speed_from_theory()
    {
        RamSite changed = new RamChange { DrivePipeMaterial = PipeMaterial.Pe100, DrivePipeWallM = 0.005 }.Site(Steel);
        Assert.InRange(SiteHydraulics.Of(changed).WaveSpeedMPerS, 230, 400);
        Assert.Equal(0.05, changed.DrivePipe.BoreM, 9);
        Assert.Null(changed.DrivePipe.PressureRatingPa);
    }

    [Fact]
    public void A_thicker_wall_of_the_same_make_keeps_what_was_found_over_theory()
    {
        RamSite bare = Steel with { DrivePipe = Steel.DrivePipe with { WaveSpeedMPerS = null } };
        RamSite thick = bare with { DrivePipe = bare.DrivePipe with { WallM = 0.007 } };
        double expected = 1250 * SiteHydraulics.Of(thick).WaveSpeedMPerS / SiteHydraulics.Of(bare).WaveSpeedMPerS;
        double changed = SiteHydraulics.Of(new RamChange { DrivePipeWallM = 0.007 }.Site(Steel)).WaveSpeedMPerS;
        Assert.Equal(expected, changed, 6);
        Assert.True(changed > 1250);
    }

    // A plug on a soft spring hangs short of its stop, so only a stop below that changes how far it opens.
    [Theory]
    [InlineData(0.75, 0.75)]
    [InlineData(1.25, 1.5)]
    public void A_stop_is_screwed_in_under_a_plug_that_floats(double stroke, double travelOverRest)
    {
        RamSite soft = Steel with { WasteValve = new WasteValve { Kind = WasteValveKind.SpringPlug } };
        RamParameters ram = RamDesigner.Design(soft).Ram;
        Assert.True(ram.WasteValve.Floats);
        RamParameters changed = new RamChange { Stroke = stroke }.Ram(ram, soft);
        Assert.Equal(travelOverRest * ram.WasteValve.RestLiftM, changed.WasteValve.TravelM, 6);
    }
}
