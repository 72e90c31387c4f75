using System.Globalization;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>
/// Against SciPy and NumPy: Fixtures/make_fixture.py draws a trace and computes peaks (scipy.signal.find_peaks),
/// quantiles (numpy.percentile, linear), scatter (numpy.std, ddof 1) and mean (numpy.trapz) without this project.
/// </summary>
public class SciPyTests
{
    private readonly RamAnalysis found = Rams.Analyse(Rams.Pvc, Path.Combine("Fixtures", "scipy-beats.csv"), TraceColumns.Default);

    private readonly Dictionary<string, double[]> expected = File.ReadLines(Path.Combine("Fixtures", "scipy-beats.txt"))
        .Select(line => line.Split(' '))
        .ToDictionary(w => w[0], w => w.Skip(1).Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray());

    [Fact]
    public void As_many_beats_are_found_as_SciPy_finds_spikes_the_last_one_unfinished() =>
        Assert.Equal(expected["peaks"][0] - 1, found.Beats.Count);

    [Fact]
    public void Closures_lie_within_a_sample_of_where_they_were_drawn()
    {
        double[] drawn = expected["closures"];
        for (int i = 0; i < found.BeatList.Count; i++)
        {
            Assert.InRange(found.BeatList[i].ClosureS, drawn[i] - 0.002, drawn[i] + 0.002);
        }
    }

    [Fact]
    public void Peaks_have_the_quantiles_NumPy_gives()
    {
        double[] quantiles = expected["peak_kpa"];
        Assert.Equal(quantiles[0], found.Pressure.PeakMedianPa!.Value / 1000, 0.001);
        Assert.Equal(quantiles[1], found.Pressure.PeakP95Pa!.Value / 1000, 0.001);
        Assert.Equal(quantiles[2], found.Pressure.PeakMaxPa!.Value / 1000, 0.001);
    }

    [Fact]
    public void Intervals_have_the_quantiles_and_scatter_NumPy_gives()
    {
        // A closure is known to half a sample, 1 ms here, and so are the quantiles of intervals.
        Assert.Equal(expected["interval_s"][0], found.Beats.IntervalMedianS!.Value, 0.001);
        Assert.Equal(expected["interval_s"][1], found.Beats.IntervalP05S!.Value, 0.002);
        Assert.Equal(expected["interval_s"][2], found.Beats.IntervalP95S!.Value, 0.002);
        Assert.Equal(expected["irregularity"][0], found.Beats.Irregularity!.Value, 0.001);
    }

    [Fact]
    public void The_mean_is_the_trapezoidal_one() =>
        Assert.Equal(expected["mean_kpa"][0], found.Pressure.MeanPa!.Value / 1000, 0.001);
}
