using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>A bucket speaks of the hour it was filled in: it may calibrate that record, and no other one.</summary>
public class BucketTimeTests
{
    private static readonly (double[] TimesS, double[] PressuresPa) Steel = Record();
    private static readonly RamAnalysis Plain = Analyse(Rams.Steel);

    [Fact]
    public void A_bucket_of_another_time_moves_no_figure_and_a_loss_of_thirty_per_cent_shows_whole()
    {
        // Years ago the ram delivered what today's figure is 70 % of.
        RamAnalysis now = Analyse(Rams.Steel with { BucketTests = [Bucket(Plain.Flow.DeliveredM3PerS!.Value.Value / 0.7, false)] });

        Assert.Equal(Plain.Flow, now.Flow);
        Assert.Equal(Plain.Efficiency, now.Efficiency);
        Fact compared = Assert.Single(now.Findings, f => f.Code == "bucket-compared-delivery");
        Assert.Equal(0.70, compared.Number("pressure_l_per_min")!.Value / compared.Number("bucket_l_per_min")!.Value, 3);
    }

    [Fact]
    public void A_bucket_of_the_record_calibrates_it_and_gives_a_scale_for_later_ones()
    {
        double pressure = Plain.Flow.DeliveredM3PerS!.Value.Value;
        RamAnalysis calibrated = Analyse(Rams.Steel with { BucketTests = [Bucket(0.97 * pressure, true)] });
        Fact made = Assert.Single(calibrated.Findings, f => f.Code == "flow-scale-made");

        // Between the pressure's 1 and the bucket's 0.97, and nearer to the bucket (3 %) than to the pressure (5 % and more).
        Assert.InRange(made.Number("delivered_share")!.Value, 0.97, 0.985);
        Assert.Equal(made.Number("delivered_share")!.Value, calibrated.Flow.DeliveredM3PerS!.Value.Value / pressure, 6);
        Assert.True(calibrated.Flow.DeliveredM3PerS!.Value.U < Plain.Flow.DeliveredM3PerS!.Value.U);
    }

    [Fact]
    public void A_scale_carries_over_to_a_record_of_the_same_setting_with_its_own_uncertainty()
    {
        RamAnalysis scaled = Analyse(Rams.Steel with { FlowScale = Scale() });
        Assert.Equal(0.9, scaled.Flow.DeliveredM3PerS!.Value.Value / Plain.Flow.DeliveredM3PerS!.Value.Value, 6);
        Assert.Contains(scaled.Findings, f => f.Code == "flow-scale-used");

        // The scale's own 4 % (k = 2) is a floor; what the fit leaves open comes on top.
        Assert.InRange(scaled.Flow.DeliveredM3PerS!.Value.U / scaled.Flow.DeliveredM3PerS!.Value.Value, 0.04, 0.08);
    }

    [Fact]
    public void A_changed_setting_puts_the_scale_out_of_use_and_says_so()
    {
        RamSite changed = Rams.Steel with { FlowScale = Scale(), WasteValve = new WasteValve { StrokeM = 0.006 } };
        Assert.Equal(Plain.Flow, Analyse(changed).Flow);
        Assert.Contains(Analyse(changed).Findings, f => f.Code == "flow-scale-dropped-setup");
    }

    [Theory]
    [InlineData("2026-05-02", false)]
    [InlineData("2026-05-03", false)]
    [InlineData("2026-05-04", true)]
    public void A_mark_after_the_day_of_the_test_puts_it_out_of_use_and_says_so(string marked, bool dropped)
    {
        RamAnalysis analysis = Analyse(Rams.Steel with { FlowScale = Scale().After([DateOnly.Parse(marked, System.Globalization.CultureInfo.InvariantCulture)]) });
        Assert.Equal(dropped, analysis.Findings.Any(f => f.Code == "flow-scale-dropped-mark"));
        Assert.Equal(dropped, analysis.Flow == Plain.Flow);
    }

    private static FlowScale Scale() => new()
    {
        Delivered = 0.9,
        DeliveredUncertainty = 0.04,
        Waste = 0.95,
        WasteUncertainty = 0.04,
        Date = new DateOnly(2026, 5, 3),
        Setup = FlowScale.SetupOf(Rams.Steel),
    };

    private static BucketTest Bucket(double flowM3PerS, bool ofThisRecord) => new()
    {
        Outlet = BucketOutlet.Delivery,
        VolumeM3 = 100 * flowM3PerS,
        TimeS = 100,
        Date = new DateOnly(2023, 5, 3),
        OfThisRecord = ofThisRecord,
    };

    private static RamAnalysis Analyse(RamSite site) => Rams.Analyse(site, Steel.TimesS, Steel.PressuresPa);

    private static (double[] TimesS, double[] PressuresPa) Record()
    {
        (double[] times, double[] pressures, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(Rams.Steel, 30);
        return (times, pressures);
    }
}
