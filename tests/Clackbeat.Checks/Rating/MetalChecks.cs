using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;

namespace Clackbeat.Checks.Rating;

public class MetalChecks
{
    // engineeringtoolbox.com d_775: Barlow with 0.7·35 000 = 24 500 psi on the full wall of Schedule 40. No allowances: a check
    // of the metal, not a working rating.
    [Theory(DisplayName = "Barlow for ASTM A53 B Schedule 40: 4956, 3739, 3177 psi")]
    [InlineData(1.315, 0.133, 4955.9)]
    [InlineData(1.900, 0.145, 3739.5)]
    [InlineData(2.375, 0.154, 3177.3)]
    public void Barlow(double outsideIn, double wallIn, double psi) =>
        Assert.Equal(psi, WallFormulas.BarlowPa(24_500, wallIn, outsideIn), 0.1);

    // The mill may leave out 12.5 % (ASTM A53; embosal.com). By hand, 2 in Schedule 40, NPT of 11.5 threads an inch 0.8/11.5 in
    // deep, 0.5 mm for rust: 3.9116·0.875 − 1.767 − 0.5 = 1.1557 mm; 2·66·1.1557/(60.325 − 0.8·1.1557) = 2.568 MPa.
    [Fact(DisplayName = "Threaded 2 in Schedule 40 of unknown grade: 2.57 MPa by hand")]
    public void ThreadedSteel()
    {
        MetalGrade grade = MetalGrade.All.First(g => g.Material == PipeMaterial.GalvanisedSteel);
        Approximately.Equal(2.568e6, MetalWall.RatedPa(grade, 3.9116e-3, 60.325e-3, true), 1e-3);
    }

    // ASTM A53 hydrostatic test, Schedule 40 plain end (jazeerasteel): 700 psi to 1 in, 1200 psi (A) at 1-1/4 and 1-1/2 in,
    // 2300 psi (A) at 2 in. A working rating must lie below what each length is tested to.
    [Theory(DisplayName = "Steel working ratings lie below the mill's hydrostatic test (ASTM A53)")]
    [InlineData(1.315, 0.133, 700)]
    [InlineData(1.660, 0.140, 1200)]
    [InlineData(1.900, 0.145, 1200)]
    [InlineData(2.375, 0.154, 2300)]
    public void BelowTheTest(double outsideIn, double wallIn, double testPsi)
    {
        PipeCheck check = PipeRating.Check(new PipeLoad
        {
            Material = PipeMaterial.Steel,
            BoreM = (outsideIn - 2 * wallIn) * Units.InchM,
            WallM = wallIn * Units.InchM,
        });
        Assert.InRange(check.AllowablePa!.Value / Units.PsiPa, 50, testPsi);
    }

    // Copper Development Association, Copper Tube Handbook, Table 3c, type M annealed, S = 6000 psi at 100 °F
    // (copper.org cth_table3c): 494, 407, 337, 338, 331, 299, 274, 253, 251 psi. 3 %: the association's wall tolerances vary
    // with size, ours is a tenth throughout.
    [Theory(DisplayName = "Copper type M working pressures (Copper Tube Handbook, Table 3c)")]
    [InlineData("1/2 in", 494)]
    [InlineData("3/4 in", 407)]
    [InlineData("1 in", 337)]
    [InlineData("1-1/4 in", 338)]
    [InlineData("1-1/2 in", 331)]
    [InlineData("2 in", 299)]
    [InlineData("2-1/2 in", 274)]
    [InlineData("3 in", 253)]
    [InlineData("4 in", 251)]
    public void Copper(string size, double psi)
    {
        CataloguePipe row = PipeCatalogue.OfClass(PipeMaterial.Copper, "Type M").Single(p => p.Size == size);
        MetalGrade grade = MetalGrade.All.Single(g => g.Material == PipeMaterial.Copper);
        double ours = MetalWall.RatedPa(grade, row.WallM!.Value, row.OutsideDiameterM!.Value, false);
        Approximately.Equal(psi, ours / Units.PsiPa, 0.03);
    }

    // EN 545 flanged ductile iron, PFA [bar] (saint-gobain-pam.co.uk): 10, 16, 25, 40. PMA (12, 20, 30, 48) includes occasional
    // surges and is not used.
    [Theory(DisplayName = "Ductile iron flanged classes use PFA (EN 545)")]
    [InlineData("PN 10", 10)]
    [InlineData("PN 16", 16)]
    [InlineData("PN 25", 25)]
    [InlineData("PN 40", 40)]
    public void DuctileIron(string pipeClass, double bar)
    {
        PipeCheck check = PipeRating.Check(new PipeLoad { Material = PipeMaterial.DuctileIron, BoreM = 0.1, PipeClass = pipeClass });
        Assert.Equal(bar, check.AllowablePa!.Value / Units.BarPa, 1e-9);
    }

    // ASME B31.3 §302.2.4: variations above the rating at most 1000 in a system's life. By hand: 1000 beats at 60 a minute last
    // 16.7 min, and a year holds 31.5 million beats.
    [Fact(DisplayName = "B31.3's thousand variations last a ram 17 minutes, so steel gets no allowance")]
    public void NoOccasionalBonus()
    {
        Assert.Equal(17, 1000 / 60.0, 0.5);
        Assert.Equal(31.5e6, 60 * 60 * 8760.0, 0.1e6);
        Assert.Equal(1, RecurringRule.For(PipeMaterial.Steel).Factor);
    }

    // Moser and Folkman Eq. 3.14, p. 111: P = E t³/(4 (1 − ν²) R³), R the mean radius.
    [Theory(DisplayName = "Collapse of a long tube (Moser and Folkman, Eq. 3.14)")]
    [InlineData(2.8e9, 0.4, 0.0603, 0.0029)]
    [InlineData(207e9, 0.3, 0.1143, 0.002)]
    public void Collapse(double young, double poisson, double outside, double wall)
    {
        double radius = (outside - wall) / 2;
        double book = young * Math.Pow(wall, 3) / (4 * (1 - poisson * poisson) * Math.Pow(radius, 3));
        Approximately.Equal(book, WallFormulas.CollapsePa(young, poisson, wall, outside), 1e-9);
    }

    // Makers' C900 sheets, E 400 000 psi and ν 0.38: DR 14 426, DR 18 190, DR 25 68 psi (from memory).
    [Theory(DisplayName = "Critical buckling of C900 pipe: 426, 190, 68 psi")]
    [InlineData(14, 426)]
    [InlineData(18, 190)]
    [InlineData(25, 68)]
    public void BucklingOfC900(double ratio, double psi) =>
        Approximately.Equal(psi, WallFormulas.CollapsePa(400_000, 0.38, 1, ratio), 0.01);
}
