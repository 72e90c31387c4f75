using System.Globalization;
using Clackbeat.Sensing.Calibrating;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Tests;

public class CalibratorTests
{
    private static readonly SignalPath Path = new() { RangeLowPa = 0, RangeHighPa = 250e3 };
    private static readonly ChainKnowledge Usual = ChainKnowledge.FromDataSheets(Path, 0.005, 0.02, supplyIsRead: true);

    [Fact]
    public void Good_points_over_the_range_need_no_warning() => Assert.Empty(Make(At(0), At(120e3), At(240e3)).Warnings);

    [Fact]
    public void The_curve_goes_through_points_that_are_well_known()
    {
        Calibration calibration = Make(At(0, 2e3), At(120e3, 3e3), At(240e3, 5e3));
        var conversion = SensorConversion.Calibrated(calibration);
        foreach (PointResult result in calibration.Points)
        {
            double read = conversion.PressurePaAt(result.Point.Counts, result.Point.SupplyCounts);
            Assert.Equal(result.Point.PressurePa, read, conversion.UncertaintyPaAt(result.Point.Counts, result.Point.SupplyCounts)!.Value);
            Assert.Equal(result.Point.PressurePa - read, result.ResidualPa, 1e-6);
            Assert.Equal(result.Point.Counts, conversion.CountsAt(read), 0.01);
        }
    }

    [Fact]
    public void A_point_with_a_slip_is_named_and_the_others_are_not()
    {
        // 160 kPa typed for 140 kPa among seven good points.
        CalibrationPoint wrong = At(140e3) with { PressurePa = 160e3, Text = "the slip" };
        Calibration calibration = Make(At(0), At(40e3), At(80e3), At(120e3), wrong, At(180e3), At(220e3), At(245e3));
        Assert.Equal((CalibrationRemarkCode.PointAgainstOthers, "the slip"), (calibration.Warnings[0].Code, calibration.Warnings[0].Text));
        PointResult worst = calibration.Points.MaxBy(p => Math.Abs(p.FromOthersPa!.Value) / p.FromOthersUncertaintyPa!.Value)!;
        Assert.Equal("the slip", worst.Point.Text);
        Assert.Equal(20e3, worst.FromOthersPa!.Value, 2e3);
    }

    [Fact]
    public void Uncertainty_grows_away_from_the_points()
    {
        CalibrationCurve curve = Make(At(0), At(20e3), At(49e3)).Curve;
        double[] stated = [.. Enumerable.Range(0, 5).Select(i => curve.UncertaintyPaAt(50e3 * (i + 1)))];
        Assert.Equal(stated.Order(), stated);
        Assert.True(stated[4] > 3 * stated[0]);
    }

    [Fact]
    public void More_points_never_widen_a_consistent_calibration()
    {
        CalibrationCurve few = Make(At(0), At(240e3)).Curve;
        CalibrationCurve more = Make(At(0), At(60e3), At(120e3), At(180e3), At(240e3)).Curve;
        for (double nominal = 0; nominal <= 250e3; nominal += 10e3)
        {
            Assert.True(more.UncertaintyPaAt(nominal) <= few.UncertaintyPaAt(nominal) * 1.0001);
        }
    }

    [Fact]
    public void Many_readings_of_one_gauge_do_not_mend_the_gauge()
    {
        // A limit of 4 kPa, all of it shared: the span can't be known better than that share, however many the readings.
        CalibrationPoint[] points = [.. Enumerable.Range(1, 20).Select(i =>
            At(12e3 * i) with { Reference = ReferenceKind.Gauge, OwnUncertaintyPa = 100, CommonUncertaintyPa = 4e3 / Math.Sqrt(3) })];
        Assert.True(Make(points).Curve.UncertaintyPaAt(125e3) > 0.8 * 2 * 4e3 / Math.Sqrt(3) * 0.5);
    }

    [Fact]
    public void A_chain_that_is_not_the_one_described_is_told()
    {
        // A divider that leaves 40 % where the site file says 50 %.
        SignalPath real = Path with { SignalGain = 0.4 };
        CalibrationPoint Real(double pa) => At(pa) with { Counts = real.CountsAt(pa) };
        Assert.Contains(Make(Real(0), Real(120e3), Real(240e3)).Warnings, w => w.Code == CalibrationRemarkCode.SpanOffSheet);
    }

    [Fact]
    public void No_chain_within_its_data_sheets_limits_is_refused()
    {
        // Every error at its limit and of the sign that hurts: sensor 0.5 % twice, resistors 2 %, converter 60 mV.
        foreach (double sign in new[] { -1.0, 1 })
        {
            SignalPath real = Path with { SignalGain = 0.5 * (1 + (sign * 0.02)) };
            CalibrationPoint Real(double pa) => At(pa) with
            {
                Counts = real.CountsAt((pa * (1 + (sign * 0.01))) + (sign * 0.01 * Path.SpanPa)) + (sign * 0.060 / Path.Converter.StepV),
            };
            Assert.Null(DataSheetContradiction.Worst(Path, [Real(0), Real(20e3), Real(120e3), Real(240e3)], Usual));
        }
    }

    [Fact]
    public void A_divider_of_a_third_where_a_half_is_described_is_beyond_reason()
    {
        SignalPath real = Path with { SignalGain = 1.0 / 3 };
        CalibrationPoint Real(double pa) => At(pa) with { Counts = real.CountsAt(pa) };
        DataSheetContradiction found = DataSheetContradiction.Worst(Path, [Real(0), Real(120e3), Real(240e3)], Usual)!;
        Assert.Contains(ContradictionCause.DividerOrRange, found.Causes);
        // The true rise is half as large again as the counts say.
        Assert.Equal(1.5, found.ReferencePa / found.NominalPa, 0.01);
    }

    [Theory]
    [InlineData(4095, CalibrationRemarkCode.PointAtEnd)]
    [InlineData(2950, CalibrationRemarkCode.PointOutside)]
    public void A_point_outside_the_converter_is_told(double counts, CalibrationRemarkCode told) => Assert.Contains(
        Make(At(0), At(240e3) with { Counts = counts }).Warnings, w => w.Code == told);

    [Fact]
    public void A_divider_that_cuts_the_range_off_or_uses_little_of_the_converter_is_told()
    {
        Assert.Contains(MakeOn(Path with { SignalGain = 0.8 }).Warnings, w => w.Code == CalibrationRemarkCode.Window);
        Assert.Contains(
            MakeOn(Path with { SignalGain = 0.08, Converter = new Converter { UsableLowV = 0, ZeroV = 0 } }).Warnings,
            w => w.Code == CalibrationRemarkCode.FewCounts);
    }

    [Fact]
    public void Voltages_alone_are_no_calibration() => Assert.Throws<ArgumentException>(
        () => CalibrationFit.Of(Path, [At(100e3) with { Reference = ReferenceKind.Electric }], Usual));

    [Fact]
    public void A_pressure_that_wanders_is_not_still()
    {
        double span = Path.SpanPa / Path.StepPa;
        Random random = new(1);
        double[] still = [.. Enumerable.Range(0, 5000).Select(_ => Math.Round(500 + (6 * (random.NextDouble() - 0.5))))];
        double[] drifting = [.. still.Select((c, i) => c + (i * 0.004))];
        double[] beating = [.. still.Select((c, i) => c + (i % 1000 < 200 ? 300 : 0))];
        Assert.True(StillReading.Of(still, [2300], span).IsStill);
        Assert.Equal(500, StillReading.Of(still, [], span).Counts, 0.2);
        Assert.False(StillReading.Of(drifting, [], span).IsStill);
        Assert.False(StillReading.Of(beating, [], span).IsStill);
    }

    private static Calibration Make(params CalibrationPoint[] points) => Make(Path, points);

    private static Calibration MakeOn(SignalPath path) => Make(
        path, [At(0) with { Counts = path.CountsAt(0) }, At(100e3) with { Counts = path.CountsAt(100e3) }]);

    private static Calibration Make(SignalPath path, IReadOnlyList<CalibrationPoint> points) => Calibrator.Make(
        path, points, Usual, new DateOnly(2026, 5, 3));

    private static CalibrationPoint At(double pressurePa, double offPa = 0) => new()
    {
        Reference = pressurePa == 0 ? ReferenceKind.Air : ReferenceKind.Column,
        Text = string.Create(CultureInfo.InvariantCulture, $"{pressurePa / 1000} kPa"),
        PressurePa = pressurePa,
        OwnUncertaintyPa = 30,
        Counts = Path.CountsAt(pressurePa + offPa),
        SupplyCounts = Path.SupplyCountsAt(),
    };
}
