using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Hydraulics.Tests.Rating;

/// <summary>Sizes as people write them, against the diameters and walls of the standards' own tables.</summary>
public class PipeSizeTests
{
    // ASTM D1785 (Machinery's Handbook 31, Tables 13 and 14): 2 in Schedule 40 is 2.375 × 0.154 in, 1-1/2 in is 1.900 × 0.145 in.
    [Theory]
    [InlineData("2 in", "Schedule 40", 2.375, 0.154)]
    [InlineData("2\"", "sch 40", 2.375, 0.154)]
    [InlineData("NPS 2 inch", "SCH40", 2.375, 0.154)]
    [InlineData("1-1/2 in", "Schedule 40", 1.900, 0.145)]
    [InlineData("1 1/2 in", "Schedule 40", 1.900, 0.145)]
    [InlineData("1.5 in", "Schedule 40", 1.900, 0.145)]
    [InlineData("1/2 in", "Schedule 80", 0.840, 0.147)]
    [InlineData("DN 50", "Schedule 40", 2.375, 0.154)]
    public void An_inch_size_is_found_however_it_is_written(string size, string named, double outsideIn, double wallIn)
    {
        CataloguePipe pipe = PipeSize.Find(PipeMaterial.PvcU, size, named, null)!;
        Assert.Equal(outsideIn * 0.0254, pipe.OutsideDiameterM!.Value, 1e-6);
        Assert.Equal(wallIn * 0.0254, pipe.WallM!.Value, 1e-6);
    }

    // A metric plastic pipe is sold by its outside diameter: 63 mm of SDR 11 has 63/11 = 5.73 mm of wall (EN 12201-2: 5.8).
    [Theory]
    [InlineData("63 mm")]
    [InlineData("63")]
    [InlineData("DN 63")]
    public void A_metric_plastic_size_is_its_outside_diameter(string size)
    {
        CataloguePipe pipe = PipeSize.Find(PipeMaterial.Pe100, size, "SDR 11", null)!;
        Assert.Equal(0.063, pipe.OutsideDiameterM!.Value, 1e-9);
        Assert.Equal(0.0058, pipe.WallM!.Value, 1e-4);
    }

    // 2 in: Schedule 40 has a bore of 2.067 in, Schedule 80 of 1.939 in (ASTM D1785).
    [Fact]
    public void A_bore_settles_a_class_that_was_left_out()
    {
        Assert.Null(PipeSize.Find(PipeMaterial.PvcU, "2 in", null, null));
        Assert.Equal("Schedule 80", PipeSize.Find(PipeMaterial.PvcU, "2 in", null, 0.0492)!.Class);
    }

    [Theory]
    [InlineData("two")]
    [InlineData("")]
    [InlineData("1/0 in")]
    [InlineData("99 in")]
    [InlineData("-2 in")]
    public void What_is_no_size_finds_nothing(string size) =>
        Assert.Null(PipeSize.Find(PipeMaterial.PvcU, size, "Schedule 40", null));
}
