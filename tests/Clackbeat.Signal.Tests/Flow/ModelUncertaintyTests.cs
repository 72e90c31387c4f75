using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>
/// What a flow's ± holds although no fit shows it: how far real rams stray from the model. All that the fit and the site file leave
/// open is set to nothing here, so what remains is that part alone. A keeper who trusts a ± that is too narrow takes chance for a
/// fault, so the numbers are written out; their origin is docs/flow-method.md.
/// </summary>
public class ModelUncertaintyTests
{
    [Theory]
    [InlineData(false, 1)]
    [InlineData(true, 2.5)] // At three to six samples a pipe period the errors on the virtual rams were two to three times those at more.
    public void A_flow_is_never_claimed_closer_than_the_model_is_to_a_ram(bool coarse, double times)
    {
        (FlowResult result, double waveShare) = Known(coarse);

        // Expanded, k = 2: three per cent for a ram without waves, and 0.12 of what a wave's step is of the closing velocity. The step itself
        // is known to a tenth, which goes into what is delivered by x/(1 − x).
        double model = times * (0.030 + (0.12 * waveShare));
        double step = 0.20 * waveShare / (1 - waveShare);
        double delivered = result.Flow.DeliveredM3PerS!.Value.Value / result.Flow.DrawnM3PerS!.Value.Value;
        Assert.InRange(waveShare, 0.01, 0.5);
        Assert.Equal(Math.Sqrt((model * model) + (step * step)), Share(result.Flow.DeliveredM3PerS), 1e-9);
        Assert.Equal(model, Share(result.Flow.WasteM3PerS), 1e-9);
        Assert.Equal(Math.Sqrt((model * model) + (step * step * delivered * delivered)), Share(result.Flow.DrawnM3PerS), 1e-9);
    }

    [Fact]
    public void Nor_is_a_closing_velocity_an_efficiency_or_a_zero()
    {
        (FlowResult result, double waveShare) = Known(coarse: false);

        Assert.Equal(0.08 + (0.6 * waveShare), Share(result.Flow.ClosingVelocityMPerS), 1e-9);
        double wasted = result.Flow.WasteM3PerS!.Value.Value / result.Flow.DrawnM3PerS!.Value.Value;
        double step = wasted * 0.20 * waveShare / (1 - waveShare);
        double efficiency = Math.Sqrt(Math.Pow(0.020 + (0.06 * waveShare), 2) + (step * step));
        Assert.Equal(efficiency, Share(result.Efficiency.DAubuisson), 1e-9);
        Assert.Equal(efficiency, Share(result.Efficiency.DriveSide), 1e-9);

        // A centimetre of water, k = 1: the plug's first opening bends the law of the open valve by up to that.
        Assert.Equal(2 * 0.01 * 998 * 9.81, result.SensorBiasUncertaintyPa!.Value, 1.0);
    }

    /// <summary>A record whose fit, wave speed, site and supply head are taken as known without any uncertainty.</summary>
    private static (FlowResult Result, double WaveShare) Known(bool coarse)
    {
        RamSite site = Rams.Steel;
        var hydraulics = SiteHydraulics.Of(site);
        double headPerPa = 1 / hydraulics.PressurePa(1);
        var store = new WindowStore(1_000_000);
        var scale = new RamScale(
            hydraulics.PressurePa(site.Supply.HeadM), hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
        var detector = new BeatDetector(scale, w =>
        {
            if (store.Wants(w.Beat))
            {
                store.Keep(FlowWindow.Copy(w.Beat, w.TimesS, w.PressuresPa, headPerPa, 0));
            }
        });
        (double[] times, double[] pressures, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(site, 12);
        for (int i = 0; i < times.Length; i++)
        {
            detector.Add(times[i], pressures[i]);
        }

        detector.Finish();
        List<FlowWindow> windows = store.Some(64);
        var fit = new ColumnFit(windows, SiteColumn.Of(site, hydraulics), 0.01, OpenNoise.Of(windows));
        Assert.True(fit.Solve(8));
        FlowResult result = new FlowReport(site, hydraulics, windows, store, coarse, new FlowFacts()).Of(
            fit, default, new FoundWaveSpeed(hydraulics.WaveSpeedMPerS, 0, true),
            new SiteUncertainty { Length = 0, Bore = 0, SupplyM = 0, Gain = 0, WaveSpeed = 0 }, new SupplyHead(site.Supply.HeadM, 0, false))!;
        Assert.Empty(result.Limits);
        return (result, fit.WaveStep / result.Flow.ClosingVelocityMPerS!.Value.Value);
    }

    private static double Share(Signal.Figures.Figure? figure) => figure!.Value.U / figure.Value.Value;
}
