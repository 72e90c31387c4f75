using Clackbeat.Commands;
using Clackbeat.Recording.Link;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam.Truth;
using Xunit.Abstractions;

namespace Clackbeat.Acceptance;

/// <summary>
/// The demo's whole chain: virtual ram, converter counts, firmware, frames, a serial port where the system has them,
/// samples, figures. The truth is the solver's own, which no sensor or logger has touched.
/// </summary>
public sealed class ChainTests(ITestOutputHelper output)
{
    private static readonly Lazy<(VirtualChain Chain, RamAnalysis Analysis, LossAccount Losses)> Demo = new(Run);

    [Fact]
    public void The_figures_of_the_demo_hold_the_truth_within_their_uncertainty()
    {
        var (chain, analysis, losses) = Demo.Value;
        RamTotals truth = chain.Totals;
        Assert.True(losses.IsClean);
        Assert.InRange(analysis.Input.Samples, (long)(DemoCommand.RecordS * 1000) - 1, (long)(DemoCommand.RecordS * 1000) + 1);
        Assert.Empty(analysis.Input.Gaps);
        Assert.InRange(analysis.Beats.Count, truth.Beats - 2, truth.Beats);
        Holds("beats a minute", analysis.Beats.RatePerMin, truth.BeatsPerMin!.Value);
        Holds("delivery pressure", analysis.Pressure.Delivery, chain.Beats.Average(b => b.PlateauPa!.Value));
        Holds("delivered", analysis.Flow.DeliveredM3PerS, truth.DeliveredM3 / truth.DurationS);
        Holds("to waste", analysis.Flow.WasteM3PerS, truth.WasteM3 / truth.DurationS);
        Holds("closing velocity", analysis.Flow.ClosingVelocityMPerS, chain.Beats.Average(b => b.ClosingVelocityMPerS));
        Holds("D'Aubuisson", analysis.Efficiency.DAubuisson, truth.DAubuisson!.Value);
    }

    // Device time and the ram's own differ by a constant: when the logger was started.
    [Fact]
    public void Each_beat_of_the_ram_is_found_at_its_time()
    {
        var (chain, analysis, _) = Demo.Value;
        List<double> closures = [.. chain.Beats.Select(b => b.ClosureS)];
        double[] apart = [.. analysis.BeatList.Select(b => b.ClosureS - closures.MinBy(c => Math.Abs(c - b.ClosureS)))];
        output.WriteLine($"closures found {1000 * apart.Average():0.00} ms from the truth, spread {1000 * (apart.Max() - apart.Min()):0.00} ms");

        // A closure between two samples is placed to a sample: one period of 1 ms to either side.
        Assert.InRange(apart.Max() - apart.Min(), 0, 0.002);
    }

    private static (VirtualChain Chain, RamAnalysis Analysis, LossAccount Losses) Run()
    {
        using TemporaryFolder folder = new();
        RamSite site = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "the template");
        VirtualChain chain = DemoCommand.Chain(site);
        var (analysis, losses) = DemoCommand.Record(site, chain, folder[""], new Progress<double>(), default);
        return (chain, analysis, losses);
    }

    private void Holds(string what, Figure? figure, double truth)
    {
        Assert.True(figure.HasValue, $"{what} was withheld");
        output.WriteLine($"{what}: {figure.Value.Value:G6} ± {figure.Value.U:G3}, truth {truth:G6}");
        Assert.True(
            Math.Abs(figure.Value.Value - truth) <= figure.Value.U,
            $"{what}: {figure.Value.Value} ± {figure.Value.U} does not hold {truth}");
    }
}
