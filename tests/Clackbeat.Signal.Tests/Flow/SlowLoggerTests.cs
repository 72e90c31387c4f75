using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualRam.Truth;
using MathNet.Numerics.Statistics;
using Figure = Clackbeat.Signal.Figures.Figure;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>Records of few samples a beat, beside what really happened: the virtual ram's own beats, and the same ram sampled finely.</summary>
public class SlowLoggerTests
{
    [Theory]
    [InlineData("steel", 100)] // 2.3 samples a pipe period.
    [InlineData("steel", 50)]
    [InlineData("steel", 60)]
    [InlineData("steel", 75)]
    [InlineData("steel", 85)]
    [InlineData("pvc", 100)]
    [InlineData("polyethylene", 50)]
    public void A_slow_logger_gets_its_flows_with_a_wider_uncertainty_that_holds(string name, double rateHz)
    {
        RamSite site = name switch { "steel" => Rams.Steel, "pvc" => Rams.Pvc, _ => Rams.Polyethylene };
        (double[] times, double[] pressures, List<VirtualBeat> truth) = Rams.Record(site, 40, rateHz);
        FlowResult result = FlowBench.Measure(site, times, pressures);
        double seconds = truth.Sum(b => b.IntervalS);

        Holds(result.Flow.DeliveredM3PerS, truth.Sum(b => b.DeliveredM3) / seconds);
        Holds(result.Flow.WasteM3PerS, truth.Sum(b => b.WasteM3) / seconds);
        Assert.InRange(result.Flow.DeliveredM3PerS!.Value.U / result.Flow.DeliveredM3PerS.Value.Value, 0.05, 0.9);
    }

    [Theory]
    [InlineData("steel", 50)]
    [InlineData("steel", 100)]
    [InlineData("pvc", 50)]
    public void A_closure_between_two_samples_is_placed_neither_late_nor_early_in_the_mean(string name, double rateHz)
    {
        RamSite site = name is "steel" ? Rams.Steel : Rams.Pvc;
        (double[] times, double[] pressures, List<VirtualBeat> truth) = Rams.Record(site, 40, rateHz);
        double[] late = [.. Windows(site, times, pressures).Select(w => w.Beat.ClosureS).Select(s => s - Nearest(truth, s))];

        // Known to one sample, an instant scatters by 0.29 steps; the mean of 25 beats, by 0.06.
        Assert.InRange(late.Average() * rateHz, -0.3, 0.3);
    }

    [Fact]
    public void What_a_beat_lacks_is_what_its_samples_missed_of_the_impulse()
    {
        const int Every = 20;
        RamSite site = Rams.Polyethylene;
        (double[] times, double[] pressures, _) = Rams.Record(site, 40);
        double[] slowS = [.. times.Where((_, i) => i % Every == 0)];
        double[] slowPa = [.. pressures.Where((_, i) => i % Every == 0)];
        List<FlowWindow> windows = Windows(site, slowS, slowPa);
        var hydraulics = SiteHydraulics.Of(site);
        var fit = new ColumnFit(windows, SiteColumn.Of(site, hydraulics), 0.01, OpenNoise.Of(windows));
        Assert.True(fit.Solve(8));

        // The head over time from the middle of one open phase to the middle of the next, finely and by the few samples.
        double metre = hydraulics.PressurePa(1);
        double[] missed = [.. windows.Select(w =>
        {
            (double fromS, double toS) = (w.Beat.ClosureS - (0.3 * w.Beat.OpenLengthS), w.Beat.OpenStartS + (0.5 * w.Beat.OpenLengthS));
            return (Integral(times, pressures, fromS, toS) - Integral(slowS, slowPa, fromS, toS)) / metre * fit.Model.Drive;
        })];
        double[] lacks = [.. windows.Select((_, j) => -fit.LackOf(j))];

        Assert.InRange(Correlation.Pearson(missed, lacks), 0.7, 1);
        Assert.InRange(lacks.StandardDeviation() / missed.StandardDeviation(), 0.6, 1.4);
    }

    private static List<FlowWindow> Windows(RamSite site, double[] times, double[] pressures)
    {
        var hydraulics = SiteHydraulics.Of(site);
        var windows = new List<FlowWindow>();
        var scale = new RamScale(
            hydraulics.PressurePa(site.Supply.HeadM), hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
        var detector = new BeatDetector(
            scale, w => windows.Add(FlowWindow.Copy(w.Beat, w.TimesS, w.PressuresPa, 1 / hydraulics.PressurePa(1), 0)));
        detector.Add(times, pressures);
        detector.Finish();
        return windows;
    }

    private static double Nearest(List<VirtualBeat> truth, double timeS) => truth.Select(b => b.ClosureS).MinBy(s => Math.Abs(s - timeS));

    private static double Integral(double[] times, double[] values, double fromS, double toS)
    {
        double sum = 0;
        for (int i = 1; i < times.Length; i++)
        {
            double step = Math.Max(0, Math.Min(times[i], toS) - Math.Max(times[i - 1], fromS));
            sum += step * 0.5 * (values[i] + values[i - 1]);
        }

        return sum;
    }

    private static void Holds(Figure? figure, double truth)
    {
        Assert.NotNull(figure);
        Assert.InRange(truth, figure.Value.Value - figure.Value.U, figure.Value.Value + figure.Value.U);
    }
}
