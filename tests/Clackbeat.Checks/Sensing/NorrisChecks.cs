using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Checks.Sensing;

/// <summary>
/// A calibration with certified results: NIST Statistical Reference Datasets, linear regression, "Norris" (an ozone monitor's
/// calibration, 36 points; www.itl.nist.gov/div898/strd/lls/data/Norris.shtml).
/// </summary>
public class NorrisChecks
{
    private static readonly double[] Reference =
    [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
        557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];

    private static readonly double[] Reading =
    [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
        556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];

    // A chain whose nominal pressure is the count itself.
    private static readonly SignalPath Counts = new()
    {
        RangeLowPa = 0,
        RangeHighPa = 1000,
        Output = new SensorOutput(SignalKind.Voltage, 0, 1, false),
        SignalGain = 1,
        Converter = new Converter { ZeroV = 0, FullScaleV = 1, MaxCounts = 1000, UsableLowV = 0, UsableHighV = 1 },
    };

    // Nothing known of zero and span, and a straight line: the plain least squares of the certified results.
    private static readonly ChainKnowledge Straight = new()
    {
        Electric = [1e-9, 1e-9, 1e-12, 1e-12],
        Sensor = [1e6, 1e6, 1e-12, 1e-12],
        RippleShare = 0,
        SupplyShare = 0,
    };

    [Fact]
    public void Zero_slope_and_their_deviations_are_the_certified_ones()
    {
        CalibrationPoint[] points = [.. Reference.Zip(Reading, (pressure, counts) => new CalibrationPoint
        {
            Reference = ReferenceKind.Gauge,
            Text = "Norris",
            PressurePa = pressure,
            OwnUncertaintyPa = 0.1,
            Counts = counts,
            CountsUncertainty = 0,
        })];
        CalibrationCurve curve = CalibrationFit.Of(Counts, points, Straight).Curve;
        Approximately.Equal(-0.262323073774029, 1000 * curve.Coefficients[0], 1e-6);
        Approximately.Equal(1.00211681802045, 1 + curve.Coefficients[1], 1e-9);
        Approximately.Equal(0.232818234301152, 1000 * Math.Sqrt(curve.Covariance[0][0]), 1e-5);
        Approximately.Equal(0.429796848199937e-3, Math.Sqrt(curve.Covariance[1][1]), 1e-5);
    }

    // Gravity on the WGS 84 ellipsoid: 9.7803253359 m/s² at the equator, 9.8321849379 at the poles (NIMA TR8350.2, table 3.4).
    [Theory]
    [InlineData(0, 9.7803253359)]
    [InlineData(90, 9.8321849379)]
    [InlineData(-90, 9.8321849379)]
    public void Gravity_is_that_of_the_ellipsoid(double latitudeDeg, double gravityMPerS2) =>
        Approximately.Equal(gravityMPerS2, References.GravityAt(latitudeDeg, 0), 1e-9);

    [Fact]
    public void Ten_metres_of_water_at_20_C_are_98_kPa()
    {
        // 998.2 kg/m³ (LSBU, water data) × 9.80665 m/s² × 10 m = 97.89 kPa.
        Approximately.Equal(97.89e3, References.Column(10, 0.01, 20).PressurePa, 1e-4);
    }
}
