using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;
using Xunit.Abstractions;

namespace Clackbeat.Sensing.Tests;

/// <summary>
/// Calibrations of chains drawn at random, judged by the drawn truth (Monte Carlo after JCGM 101:2008). With 300 chains
/// at 21 pressures each, a true coverage of 95 % shows as 92 % or more almost surely.
/// </summary>
public class CalibrationTests(ITestOutputHelper output)
{
    private const int Chains = 300;
    private const double GravityMPerS2 = 9.80665;
    private const double DensityKgPerM3 = 999.5;

    [Theory]
    [InlineData(250e3, 12.0, 24.0)]
    [InlineData(100e3, 4.0, 9.0)]
    [InlineData(60e3, 2.0, 5.0)]
    public void Three_water_columns_over_the_range_bring_pressure_within_half_a_per_cent_of_it(
        double rangePa, double middleM, double highM)
    {
        Tally tally = Run(rangePa, [0, middleM, highM], []);
        output.WriteLine(tally.ToString());
        Assert.InRange(tally.WithinHalfAPerCent, 0.95, 1);
        Assert.InRange(tally.Coverage, 0.93, 1);
        // The ± must not be bought by width: within the points it stays inside the half per cent too.
        Assert.True(tally.StatedAtFivePerCent < 0.005, $"stated ± {tally.StatedAtFivePerCent:P2}");
    }

    [Fact]
    public void Low_columns_on_a_wide_sensor_say_how_little_they_know_of_its_top()
    {
        Tally tally = Run(1e6, [0, 2, 5], []);
        output.WriteLine(tally.ToString());
        Assert.InRange(tally.Coverage, 0.93, 1);
        Assert.True(tally.StatedAtTop > 0.005, $"stated ± {tally.StatedAtTop:P2} at the top");
        Assert.True(tally.StatedAtFivePerCent < 0.005, $"stated ± {tally.StatedAtFivePerCent:P2} within the points");
    }

    [Fact]
    public void Voltages_by_a_meter_carry_low_columns_up_the_range()
    {
        Tally alone = Run(1e6, [0, 2, 5], []);
        Tally tally = Run(1e6, [0, 2, 5], [0.5, 1.5, 2.5, 3.5, 4.5]);
        output.WriteLine(tally.ToString());
        Assert.InRange(tally.Coverage, 0.93, 1);
        Assert.True(tally.StatedAtTop < alone.StatedAtTop / 2, $"{tally.StatedAtTop:P2} against {alone.StatedAtTop:P2}");
    }

    [Fact]
    public void A_good_gauge_near_the_top_holds_the_span()
    {
        Tally tally = Run(1e6, [0, 2, 5], [], gaugePa: 900e3);
        output.WriteLine(tally.ToString());
        Assert.InRange(tally.Coverage, 0.93, 1);
        Assert.True(tally.StatedAtTop < 0.01, $"stated ± {tally.StatedAtTop:P2}");
    }

    private static Tally Run(double rangePa, double[] columnsM, double[] voltsByMeter, double? gaugePa = null)
    {
        SignalPath path = new() { RangeLowPa = 0, RangeHighPa = rangePa };
        var knowledge = ChainKnowledge.FromDataSheets(path, 0.005, 0.014, supplyIsRead: true);
        Tally tally = new(rangePa);
        for (int seed = 1; seed <= Chains; seed++)
        {
            DrawnChain chain = new(seed, rangePa);
            List<CalibrationPoint> points =
            [
                .. columnsM.Select(h => Column(chain, h)),
                .. voltsByMeter.Select(v => ByMeter(chain, path, v)),
            ];
            if (gaugePa is double reading)
            {
                points.Add(ByGauge(chain, reading));
            }

            CalibrationCurve curve = CalibrationFit.Of(path, points, knowledge).Curve;
            for (int i = 0; i <= 20; i++)
            {
                double truePa = rangePa * i / 20;
                (double counts, double supply) = chain.Read(truePa, chain.SomeSupplyV());
                double nominal = path.PressurePaAt(counts, supply);
                tally.Add(i, curve.PressurePaAt(nominal) - truePa, curve.UncertaintyPaAt(nominal));
            }
        }

        return tally;
    }

    // The tape is good to ± 5 mm and the thermometer to ± 2 °C; gravity is known by the latitude.
    private static CalibrationPoint Column(DrawnChain chain, double heightM)
    {
        double trueM = heightM == 0 ? chain.Within(0.004) : heightM + chain.Normal(0.0025);
        (double counts, double supply) = chain.Read(DensityKgPerM3 * GravityMPerS2 * trueM, chain.SomeSupplyV());
        (double pressure, double own, double common) =
            heightM == 0 ? References.Air() : References.Column(heightM, 0.005, 12 + chain.Within(2), GravityMPerS2);
        return Point(heightM == 0 ? ReferenceKind.Air : ReferenceKind.Column, $"{heightM} m", pressure, own, common, counts, supply);
    }

    // A meter of 0.5 % reads signal and supply; its own error cancels in their ratio but for a tenth.
    private static CalibrationPoint ByMeter(DrawnChain chain, SignalPath path, double outputV)
    {
        double supplyV = chain.SomeSupplyV();
        (double counts, double supply) = chain.ReadVolts(outputV, supplyV);
        double shown = outputV * (1 + chain.Within(0.001));
        (double pressure, double own, double common) = References.Electric(path, shown, supplyV, 0.001);
        return Point(ReferenceKind.Electric, $"{outputV} V", pressure, own, common, counts, supply);
    }

    // Class 0.6 on 10 bar: 6 kPa.
    private static CalibrationPoint ByGauge(DrawnChain chain, double readingPa)
    {
        (double counts, double supply) = chain.Read(readingPa + chain.Within(6e3), chain.SomeSupplyV());
        (double pressure, double own, double common) = References.Gauge(readingPa, 6e3);
        return Point(ReferenceKind.Gauge, "gauge", pressure, own, common, counts, supply);
    }

    private static CalibrationPoint Point(
        ReferenceKind reference, string text, double pressure, double own, double common, double counts, double supply) => new()
        {
            Reference = reference,
            Text = text,
            PressurePa = pressure,
            OwnUncertaintyPa = own,
            CommonUncertaintyPa = common,
            Counts = counts,
            CountsUncertainty = 0.3,
            SupplyCounts = supply,
        };

    private sealed class Tally(double rangePa)
    {
        private readonly List<(int Place, double ErrorPa, double StatedPa)> _all = [];

        public double Coverage => Share(a => Math.Abs(a.ErrorPa) <= a.StatedPa);

        public double WithinHalfAPerCent => Share(a => Math.Abs(a.ErrorPa) <= 0.005 * rangePa);

        public double StatedAtTop => _all.Where(a => a.Place == 20).Average(a => a.StatedPa) / rangePa;

        public double StatedAtFivePerCent => _all.Where(a => a.Place == 1).Average(a => a.StatedPa) / rangePa;

        public void Add(int place, double errorPa, double statedPa) => _all.Add((place, errorPa, statedPa));

        public override string ToString() => string.Join('\n', _all.GroupBy(a => a.Place).Where(g => g.Key % 4 == 0 || g.Key == 1).Select(g =>
            $"{g.Key * 5,3} %: coverage {g.Average(a => Math.Abs(a.ErrorPa) <= a.StatedPa ? 1.0 : 0):P1}, "
            + $"95 % of errors within {g.Select(a => Math.Abs(a.ErrorPa)).Order().ElementAt((int)(0.95 * g.Count())) / rangePa:P2}, "
            + $"stated ± {g.Average(a => a.StatedPa) / rangePa:P2}")) + $"\ncoverage {Coverage:P1}, within 0.5 %: {WithinHalfAPerCent:P1}";

        private double Share(Func<(int Place, double ErrorPa, double StatedPa), bool> holds) => _all.Average(a => holds(a) ? 1.0 : 0);
    }
}
