using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Hydraulics.Tests.Rating;

public class CatalogueTests
{
    [Theory]
    [InlineData("Schedule 40")]
    [InlineData("sch40")]
    [InlineData("SCH 40")]
    public void A_class_is_found_as_people_write_it(string written) =>
        Assert.NotEmpty(PipeCatalogue.OfClass(PipeMaterial.PvcU, written));

    [Fact]
    public void Every_row_has_its_source_and_can_be_looked_up_by_its_own_class() => Assert.All(PipeCatalogue.All, row =>
    {
        Assert.NotEqual("", row.Source);
        Assert.Contains(row, PipeCatalogue.OfClass(row.Material, row.Class));
    });

    [Fact]
    public void Sized_rows_are_found_again_by_bore_and_wall() =>
        Assert.All(PipeCatalogue.All.Where(r => r.WallM is not null), row =>
        {
            IReadOnlyList<CataloguePipe> found = PipeCatalogue.Find(
                row.Material, row.OutsideDiameterM!.Value - 2 * row.WallM!.Value, row.OutsideDiameterM, row.WallM, null);
            Assert.Contains(found, f => f.Series == row.Series && f.WallM >= row.WallM - 1e-9);
        });

    [Fact]
    public void A_wall_between_two_classes_is_taken_for_the_weaker()
    {
        // 63 mm PE100 with 5.2 mm: DR 12.1, thinner than SDR 11, thicker than SDR 13.6.
        CataloguePipe row = Assert.Single(PipeCatalogue.Find(PipeMaterial.Pe100, 0.0526, 0.063, 0.0052, null));
        Assert.Equal("SDR 13.6", row.Class);
    }

    [Fact]
    public void A_wall_thinner_than_every_class_fits_none() =>
        Assert.Empty(PipeCatalogue.Find(PipeMaterial.Pe100, 0.061, 0.063, 0.001, null));

    [Fact]
    public void Beyond_the_last_tabled_temperature_no_factor_is_made_up() =>
        Assert.Empty(TemperatureFactors.At(PipeMaterial.PvcU, 61));
}
