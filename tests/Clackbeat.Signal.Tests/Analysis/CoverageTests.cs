using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Figures;

namespace Clackbeat.Signal.Tests.Analysis;

/// <summary>
/// How often value ± U holds the truth, over many drawn records. The bounds fail for a ± a third too small (82 % for a normal
/// distribution) and for one twice too large (over 99.9 %), and so hold both ends.
/// </summary>
public class CoverageTests
{
    private const int Draws = 4000;

    // 95.45 % is meant. Over 4000 draws the share itself scatters by 0.33 %.
    [Theory]
    [InlineData(2, 0.0, 0.94, 0.97)]
    [InlineData(3, 0.0, 0.93, 0.98)]
    [InlineData(5, 0.0, 0.92, 0.98)]
    [InlineData(40, 0.0, 0.92, 0.97)]
    // Autocorrelation is estimated low from few values (Zieba and Ramza 2011, figure 3), so what is asked for is a little less.
    [InlineData(200, 0.5, 0.92, 0.98)]
    [InlineData(400, 0.8, 0.91, 0.98)]
    public void The_mean_of_a_series_lies_within_its_expanded_uncertainty(int count, double correlation, double least, double most)
    {
        double share = Share(new Random(7), random =>
        {
            var mean = MeanOfSeries.Of(Series(random, count, correlation));
            return Expanded.Of(mean.Mean, mean.Standard!.Value, mean.Freedom);
        }, 0);
        Assert.InRange(share, least, most);
    }

    [Fact]
    public void Taken_as_independent_correlated_beats_would_give_a_false_sense_of_certainty()
    {
        double share = Share(new Random(7), random =>
        {
            double[] series = Series(random, 200, 0.5);
            double mean = series.Average();
            return new Figure(mean, 2 * Math.Sqrt(series.Sum(v => (v - mean) * (v - mean)) / (200.0 * 199.0)));
        }, 0);
        Assert.InRange(share, 0.65, 0.80);
    }

    [Fact]
    public void The_rate_of_a_few_beats_lies_within_its_uncertainty()
    {
        double share = Share(new Random(11), random => Summaries.Rhythm(Beats([.. Series(random, 6, 0).Select(x => 1 + (0.02 * x))]), 1e-3).RatePerMin!.Value, 60);
        Assert.InRange(share, 0.92, 0.98);
    }

    [Fact]
    public void The_median_delivery_pressure_lies_within_its_uncertainty_with_the_sensors_part()
    {
        // A data sheet's limit of 1 kPa: the zero of the sensor at hand lies anywhere within it.
        double share = Share(new Random(13), random =>
        {
            double zeroPa = ((2 * random.NextDouble()) - 1) * 1000;
            Beat[] beats = [.. Series(random, 15, 0).Select(x => DeliveryBeat(200e3 + zeroPa + (500 * x)))];
            return Summaries.Median(beats, b => b.DeliveryPa, Expanded.OfBound(1000))!.Value;
        }, 200e3);

        // With a rectangular part in it the interval holds somewhat more than a normal one would; 1.000 would be a ± far too wide.
        Assert.InRange(share, 0.93, 0.999);
    }

    [Fact]
    public void One_beat_has_no_plus_or_minus()
    {
        Assert.Null(Summaries.Rhythm(Beats([1.0]), 1e-3).RatePerMin);
        Assert.Null(Summaries.Median([DeliveryBeat(2e5)], b => b.DeliveryPa, 100.0));
    }

    [Theory]
    // JCGM 100:2008, table G.2, column p = 95.45 %.
    [InlineData(1, 13.97)]
    [InlineData(2, 4.53)]
    [InlineData(5, 2.65)]
    [InlineData(10, 2.28)]
    [InlineData(50, 2.05)]
    [InlineData(double.PositiveInfinity, 2.000)]
    public void The_coverage_factor_is_students(double freedom, double factor) => Assert.Equal(factor, Expanded.Factor(freedom), 0.006);

    [Fact]
    public void A_bound_is_a_rectangular_distribution() =>
        // JCGM 100:2008 §4.3.7: u = a/√3, so a limit of 5 kPa is 2.887 kPa, and not the 2.5 kPa that k = 2 would make of it.
        Assert.Equal(2886.75, Expanded.OfBound(5000), 0.01);

    private static double Share(Random random, Func<Random, Figure> measured, double truth) =>
        Enumerable.Range(0, Draws).Count(_ => measured(random) is var f && Math.Abs(f.Value - truth) <= f.U) / (double)Draws;

    // First-order autoregressive, unit variance, mean zero.
    private static double[] Series(Random random, int count, double correlation)
    {
        double[] values = new double[count];
        double last = Normal(random);
        for (int i = 0; i < count; i++)
        {
            values[i] = last;
            last = (correlation * last) + (Math.Sqrt(1 - (correlation * correlation)) * Normal(random));
        }

        return values;
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static Beat[] Beats(double[] intervalsS)
    {
        double at = 0;
        return [.. intervalsS.Select((s, i) => DeliveryBeat(2e5) with { Index = i, ClosureS = at, NextClosureS = at += s })];
    }

    private static Beat DeliveryBeat(double deliveryPa) => new()
    {
        Index = 0,
        ClosureS = 0,
        NextClosureS = 1,
        DeliveryEndS = 0.1,
        OpenStartS = 0.15,
        PeakPa = 4e5,
        PeakEstimatePa = 4.1e5,
        PeakUncertaintyPa = 1e4,
        DeliveryPa = deliveryPa,
        SuctionPa = -2e4,
        OpenStartPa = 0,
    };
}
