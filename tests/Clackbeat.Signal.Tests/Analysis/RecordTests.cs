using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.States;
using Clackbeat.Site;

namespace Clackbeat.Signal.Tests.Analysis;

public class RecordTests
{
    [Fact]
    public void A_flat_line_is_no_signal_and_partly_unusable()
    {
        RamAnalysis found = Rams.Analyse(Rams.Steel, Times(20_000), new double[20_000]);
        Assert.Equal(RamState.NoSignal, found.State);
        Assert.True(found.Input.PartlyUnusable);
        Assert.Contains(found.Limits, l => l.Code == "no-signal");
    }

    [Fact]
    public void A_fifth_of_a_second_is_refused() =>
        Assert.Contains("0.199 s", Refused(Times(200), Noise(200, 0)), StringComparison.Ordinal);

    [Fact]
    public void A_record_with_time_running_backwards_is_refused() =>
        Assert.Contains("backwards", Refused([.. Times(5000).Reverse()], Noise(5000, 0)), StringComparison.Ordinal);

    [Fact]
    public void A_wrong_unit_shows_as_pressures_no_sensor_can_read() =>
        Assert.Contains("unit", Refused(Times(5000), [.. Noise(5000, 0).Select(p => p + 1e9)]), StringComparison.Ordinal);

    [Theory]
    [InlineData(300)]
    [InlineData(3000)]
    public void Noise_alone_never_beats(double spreadPa)
    {
        RamAnalysis found = Rams.Analyse(Rams.Steel, Times(60_000), Noise(60_000, 24.5e3, spreadPa));
        Assert.Equal(0, found.Beats.Count);
        Assert.Equal(RamState.StoppedShut, found.State);
    }

    [Fact]
    public void Clipped_peaks_are_counted_and_said()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(Rams.Steel, 20);
        RamAnalysis found = Rams.Analyse(
            Rams.Steel with { Sensor = Rams.Steel.Sensor with { RangeHighPa = 2.2e5 } },
            timesS, [.. pressuresPa.Select(p => Math.Min(p, 2.2e5))]);
        Assert.True(found.Input.ClippedSamples > 0);
        Assert.Contains(found.BeatList, b => b.Clipped);
        Assert.Contains(found.Limits, l => l.Code == "clipped-high");
    }

    [Fact]
    public void The_interval_of_a_peak_holds_the_top_of_a_triangle_whatever_the_phase_of_sampling()
    {
        // A spike with straight flanks, 2 samples wide: its apex is known by construction.
        for (double phase = 0; phase < 1; phase += 0.05)
        {
            double[] samples = [.. Enumerable.Range(-5, 11).Select(i => 100 + Math.Max(0, 200 * (1 - (Math.Abs(i - phase) / 2))))];
            var peak = Peak.Of(samples);
            Assert.InRange(300, peak.EstimatePa - peak.HalfWidthPa - 1e-9, peak.EstimatePa + peak.HalfWidthPa + 1e-9);
        }
    }

    private static string Refused(double[] timesS, double[] pressuresPa) =>
        Assert.Throws<InputException>(() => Rams.Analyse(Rams.Steel, timesS, pressuresPa)).Message;

    private static double[] Times(int count) => [.. Enumerable.Range(0, count).Select(i => 0.001 * i)];

    private static double[] Noise(int count, double meanPa, double spreadPa = 500)
    {
        var random = new Random(3);
        return [.. Enumerable.Range(0, count).Select(_ => meanPa + (spreadPa * Enumerable.Range(0, 12).Sum(_ => random.NextDouble() - 0.5)))];
    }
}
