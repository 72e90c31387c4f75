using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Checks.Transients;

public class WaveSpeedChecks
{
    // COMSOL 6.4, Pipe Flow Module User's Guide, water hammer,
    // https://doc.comsol.com/6.4/doc/com.comsol.help.pipe/pipe_ug_fluidflow.05.46.html
    [Theory(DisplayName = "Thin-wall restraint factors 1, 1 − ν/2, 1 − ν² (COMSOL documentation)")]
    [InlineData(PipeRestraint.ExpansionJoints, 1)]
    [InlineData(PipeRestraint.AnchoredUpstream, 0.85)]
    [InlineData(PipeRestraint.AnchoredThroughout, 0.91)]
    public void RestraintFactors(PipeRestraint restraint, double factor) =>
        Assert.Equal(factor, WaveSpeed.ThinWallFactor(restraint, 0.3), 1e-12);

    // Wylie and Streeter, thick wall, by hand for D/e = 10, µ = 0.3 (formulas from memory):
    // 0.2·1.3 + (10/11)·{0.91, 0.85, 1} = 1.087273, 1.032727, 1.169091.
    [Theory(DisplayName = "Thick-wall restraint factors by hand (Wylie and Streeter)")]
    [InlineData(PipeRestraint.AnchoredThroughout, 1.087273)]
    [InlineData(PipeRestraint.AnchoredUpstream, 1.032727)]
    [InlineData(PipeRestraint.ExpansionJoints, 1.169091)]
    public void ThickWall(PipeRestraint restraint, double factor) =>
        Assert.Equal(factor, WaveSpeed.ThickWallFactor(restraint, 0.3, 0.1, 0.01), 1e-6);

    // IWA Publishing, table https://iwaponline.com/view-large/1085747: copper, anchored throughout, water at 15 °C.
    // The page lost its E; with the handbook's 120 GPa, 1 %.
    [Theory(DisplayName = "Copper tube wave speeds (IWA journal table)")]
    [InlineData(22.14, 1.63, 1319)]
    [InlineData(22.96, 1.22, 1273)]
    [InlineData(23.58, 0.91, 1217)]
    public void Copper(double boreMm, double wallMm, double published)
    {
        MaterialProperties copper = MaterialProperties.TryGet(PipeMaterial.Copper)!;
        double ours = WaveSpeed.InPipe(WaterProperties.At(15), copper, boreMm / 1e3, wallMm / 1e3);
        Approximately.Equal(published, ours, 0.01);
    }

    // Moser and Folkman, Buried Pipe Design, Table 4.1, p. 189 [ft/s]. Outside diameters and nominal walls by class:
    // AWWA C150/C151. The book gives neither modulus nor water; 24e6 psi and water at 20 °C, no axial stress, reproduce it.
    // 6 in class 52 is printed 5315, a misprint for 4315 between its neighbours 4265 and 4358.
    [Theory(DisplayName = "Ductile iron wave speeds by thickness class (Moser and Folkman, Table 4.1)")]
    [InlineData(4.80, 0.26, new[] { 4409.0, 4452, 4488, 4518, 4544, 4567 })]
    [InlineData(6.90, 0.25, new[] { 4206.0, 4265, 4315, 4358, 4394, 4426, 4454 })]
    [InlineData(9.05, 0.27, new[] { 4085.0, 4148, 4202, 4248, 4289, 4324, 4356 })]
    [InlineData(11.10, 0.29, new[] { 3996.0, 4059, 4114, 4162, 4205, 4242, 4276 })]
    [InlineData(13.20, 0.31, new[] { 3919.0, 3982, 4038, 4087, 4130, 4169, 4205 })]
    [InlineData(17.40, 0.34, new[] { 3783.0, 3846, 3902, 3952, 3998, 4039, 4076 })]
    public void DuctileIron(double outsideIn, double firstWallIn, double[] publishedFtPerS)
    {
        var water = WaterProperties.At(20);
        MaterialProperties iron = MaterialProperties.TryGet(PipeMaterial.DuctileIron)!;
        for (int i = 0; i < publishedFtPerS.Length; i++)
        {
            double wall = firstWallIn + 0.03 * i;
            double ours = WaveSpeed.Korteweg(
                water.BulkModulusPa, water.DensityKgPerM3, outsideIn - 2 * wall, wall, iron.YoungPa, 1);
            Approximately.Equal(publishedFtPerS[i], ours / Units.FootM, 0.004);
        }
    }

    // By hand from the form in the same book: 4660/√(1 + 300 000 (DR − 2)/400 000) ft/s; (DR − 2) is bore over wall.
    [Theory(DisplayName = "PVC wave speeds by dimension ratio (form of Moser and Folkman, ch. 4)")]
    [InlineData(14, 1474)]
    [InlineData(18, 1292)]
    [InlineData(21, 1193)]
    [InlineData(25, 1091)]
    [InlineData(26, 1069)]
    [InlineData(32.5, 954)]
    [InlineData(41, 847)]
    public void PvcByDimensionRatio(double ratio, double ftPerS)
    {
        const double bulkPa = 300_000 * Units.PsiPa;
        const double freeMPerS = 4660 * Units.FootM;
        double ours = WaveSpeed.Korteweg(bulkPa, bulkPa / (freeMPerS * freeMPerS), ratio - 2, 1, 400_000 * Units.PsiPa, 1);
        Assert.Equal(ftPerS, ours / Units.FootM, 0.6);
    }

    // CPHEEO manual sheet (scribd): C = 1425/√(1 + k d/(E t)), k = 2.07e8 and E = 2.1e10 kg/m², d = 813 mm, t = 5.8 mm.
    [Fact(DisplayName = "Steel main of the CPHEEO manual: 923.36 m/s")]
    public void Cpheeo() => Approximately.Equal(
        923.36, WaveSpeed.Korteweg(2.07e8, 2.07e8 / (1425.0 * 1425), 0.813, 0.0058, 2.1e10, 1), 1e-4);

    // Delft Hydraulics benchmark A (A. S. Tijsseling 2003; from memory): R 398.5 mm, e 8 mm, E 210 GPa, K 2.1 GPa,
    // 0.5 m³/s; classical a = 1025.7 m/s, V = 1.0022 m/s, Δp = 1.028 MPa.
    [Fact(DisplayName = "Delft Hydraulics benchmark A: wave speed and Joukowsky pressure")]
    public void DelftA()
    {
        double a = WaveSpeed.Korteweg(2.1e9, 1000, 0.797, 0.008, 210e9, 1);
        Approximately.Equal(1025.7, a, 1e-4);
        double velocity = 0.5 / (Math.PI * 0.797 * 0.797 / 4);
        Approximately.Equal(1.0022, velocity, 1e-4);
        Approximately.Equal(1.028e6, Surge.JoukowskyPa(1000, a, velocity), 1e-3);
    }

    // Xylem/Flygt page, order of magnitude only: PVC 300 m/s, steel 1100 m/s; mains of DN 150, PVC SDR 41 and steel 4.5 mm.
    [Fact(DisplayName = "Orders of magnitude: thin PVC main 300 m/s, steel main 1100 m/s (Xylem/Flygt), within a quarter")]
    public void OrdersOfMagnitude()
    {
        var water = WaterProperties.At(15);
        Approximately.Equal(300, WaveSpeed.InPipe(
            water, MaterialProperties.TryGet(PipeMaterial.PvcU)!, 39, 1), 0.25);
        Approximately.Equal(1100, WaveSpeed.InPipe(
            water, MaterialProperties.TryGet(PipeMaterial.Steel)!, 0.159, 0.0045), 0.25);
    }

    // EPA P3 Phase II report of the AguaClara ram, Cornell University: 1-inch Schedule 40 PVC, K 2.2 GPa, E 2.4 to 4.1 GPa,
    // "over 500 m/s"; 553 m/s and 5.6 ms by hand for E 2.8 GPa and 1.56 m of pipe.
    [Fact(DisplayName = "Drive pipe of the AguaClara ram: over 500 m/s, pipe period 5.6 ms")]
    public void AguaClaraDrivePipe()
    {
        double a = WaveSpeed.Korteweg(2.2e9, 998.2, 1.049 * Units.InchM, 0.133 * Units.InchM, 2.8e9, 1);
        Approximately.Equal(553, a, 1e-3);
        Assert.Equal(5.6e-3, Surge.PipePeriodS(1.56, a), 0.05e-3);
        Band band = WaveSpeed.Plausible(
            WaterProperties.At(20), MaterialProperties.TryGet(PipeMaterial.PvcU)!, 1.049 * Units.InchM, 0.133 * Units.InchM);
        Assert.True(band.Contains(553), band.ToString());
    }

    // The same report, tap line full of air: 150 ms of 4 × 1.74 m gives 46 m/s where over 500 was due.
    [Fact(DisplayName = "Air in the tap line of the AguaClara ram: a 150 ms ring implies 46 m/s")]
    public void TapLineArtefact() => Assert.Equal(0.150, Surge.RingPeriodS(1.74, 46.4), 1e-4);
}
