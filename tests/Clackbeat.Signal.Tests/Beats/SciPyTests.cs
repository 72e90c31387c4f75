using System.Globalization;
using Clackbeat.Records.Tables;
using Clackbeat.Signal.Analysis;

namespace Clackbeat.Signal.Tests.Beats;

/// <summary>
/// Against SciPy and NumPy: Fixtures/make_fixture.py draws a trace and computes peaks (scipy.signal.find_peaks),
/// quantiles (numpy.percentile, linear), scatter (numpy.std, ddof 1) and mean (numpy.trapz) without this project.
/// </summary>
public class SciPyTests
{
    private readonly RamAnalysis _found = Rams.Analyse(Rams.Pvc, Path.Combine("Fixtures", "scipy-beats.csv"), TraceColumns.Default);

    private readonly Dictionary<string, double[]> _expected = File.ReadLines(Path.Combine("Fixtures", "scipy-beats.txt"))
        .Select(line => line.Split(' '))
        .ToDictionary(w => w[0], w => w.Skip(1).Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray());

    [Fact]
    public void As_many_beats_are_found_as_SciPy_finds_spikes_the_last_one_unfinished() =>
        Assert.Equal(_expected["peaks"][0] - 1, _found.Beats.Count);

    [Fact]
    public void Closures_lie_within_a_sample_of_where_they_were_drawn()
    {
        double[] drawn = _expected["closures"];
        for (int i = 0; i < _found.BeatList.Count; i++)
        {
            Assert.InRange(_found.BeatList[i].ClosureS, drawn[i] - 0.002, drawn[i] + 0.002);
        }
    }

    [Fact]
    public void Peaks_have_the_quantiles_NumPy_gives()
    {
        double[] quantiles = _expected["peak_kpa"];
        Assert.Equal(quantiles[0], _found.Pressure.PeakMedianPa!.Value / 1000, 0.001);
        Assert.Equal(quantiles[1], _found.Pressure.PeakP95Pa!.Value / 1000, 0.001);
        Assert.Equal(quantiles[2], _found.Pressure.PeakMaxPa!.Value / 1000, 0.001);
    }

    [Fact]
    public void Intervals_have_the_quantiles_and_scatter_NumPy_gives()
    {
        // A closure is known to half a sample, 1 ms here, and so are the quantiles of intervals.
        Assert.Equal(_expected["interval_s"][0], _found.Beats.IntervalMedianS!.Value, 0.001);
        Assert.Equal(_expected["interval_s"][1], _found.Beats.IntervalP05S!.Value, 0.002);
        Assert.Equal(_expected["interval_s"][2], _found.Beats.IntervalP95S!.Value, 0.002);
        Assert.Equal(_expected["irregularity"][0], _found.Beats.Irregularity!.Value, 0.001);
    }

    [Fact]
    public void The_mean_is_the_trapezoidal_one() =>
        Assert.Equal(_expected["mean_kpa"][0], _found.Pressure.MeanPa!.Value / 1000, 0.001);
}
