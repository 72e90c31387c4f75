using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Season.Trend;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Season.Tests;

public class TrendTests
{
    private static readonly DateOnly Start = new(2025, 1, 1);

    [Theory]
    [InlineData("nile", 1871)]
    [InlineData("drift", 0)]
    [InlineData("ties", 0)]
    public void The_slope_and_its_interval_are_those_of_SciPy(string name, double firstX)
    {
        string[] row = File.ReadLines(Fixture("theil-sen.csv")).Select(l => l.Split(',')).Single(c => c[0] == name);
        double[] expected = [.. row[1..5].Select(Number)];
        double[] y = [.. row[5].Split(' ').Select(Number)];
        double[] x = [.. y.Select((_, i) => firstX + i)];
        TrendLine line = TheilSen.Fit(x, y, 0.95, inflation: 1);
        Assert.Equal(expected[0], line.Slope, 1e-9);
        Assert.Equal(expected[1], line.Intercept, 1e-6);
        Assert.Equal(expected[2], line.Low, 1e-9);
        Assert.Equal(expected[3], line.High, 1e-9);
    }

    /// <summary>By construction: the interval must hold the true slope as often as it says, with days that are alike too (ρ = 0.4).</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    public void The_interval_holds_the_true_slope_nineteen_times_in_twenty(double correlation)
    {
        var random = new Random(1);
        int held = Enumerable.Range(0, 200).Count(_ =>
        {
            TrendLine line = TheilSen.Fit(Days(Noise(random, 120, correlation).Select((e, i) => (0.01 * i) + e)))!.Value;
            return line.Low <= 0.01 && line.High >= 0.01;
        });

        // Of 200 at 95 %, fewer than 180 come once in a thousand times (binomial).
        Assert.True(held >= 180, $"held {held} of 200");
    }

    /// <summary>
    /// The fall of the Nile's flow after 1898: G. W. Cobb, Biometrika 65 (1978) 243, found the change between 1898 and 1899, and
    /// so have all since.
    /// </summary>
    [Fact]
    public void The_Nile_changed_once_and_in_1899_for_the_first_time()
    {
        double[][] nile = [.. File.ReadLines(Fixture("nile.csv")).Skip(1).Select(l => l.Split(',').Select(Number).ToArray())];
        ChangePoint change = Assert.Single(ChangePoints.Find([.. nile.Select(r => r[0])], [.. nile.Select(r => r[1])], StretchModel.Level));
        Assert.Equal(1899, change.At);
        Assert.True(change.Earliest <= 1899 && change.Latest >= 1899 && change.Latest - change.Earliest <= 8, $"{change}");

        // Means of the two stretches, 1871–1898 and 1899–1970: by hand from the table.
        Assert.Equal(nile.Take(28).Average(r => r[1]), change.Before, 1e-6);
        Assert.Equal(nile.Skip(28).Average(r => r[1]), change.After, 1e-6);
    }

    [Theory]
    [InlineData(StretchModel.Level)]
    [InlineData(StretchModel.Line)]
    public void Pruning_loses_nothing_against_trying_every_division(StretchModel model)
    {
        var random = new Random(3);
        for (int run = 0; run < 30; run++)
        {
            double[] x = [.. Enumerable.Range(0, 60).Select(i => (double)i)];
            double[] y = [.. Noise(random, 60, 0.3).Select((e, i) => e + (i >= 20 ? 4 * random.NextDouble() : 0) + (i >= 40 ? -3 : 0))];
            (double sigma, double rho) = SerialCorrelation.Robust(y);
            double penalty = (model == StretchModel.Level ? 2 : 3) * Math.Log(y.Length) * sigma * sigma * (1 + rho) / (1 - rho);
            Assert.Equal(SlowChanges(x, y, model, penalty), ChangePoints.Prune(new StretchCost(x, y, model), y.Length, penalty).Select(s => x[s]));
        }
    }

    /// <summary>By simulation: a hundred years of days without a change, wandering with a memory of ρ, must bring at most one change a year in the mean, and seldom more in any.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.4)]
    [InlineData(0.7)]
    public void A_year_without_a_change_shows_at_most_one(double correlation)
    {
        var random = new Random(5);
        int[] found = [.. Enumerable.Range(0, 100).Select(_ => ChangePoints.Find(Days(Noise(random, 365, correlation).Select((e, i) => e - (0.01 * i)))).Count)];
        Assert.True(found.Average() <= 1, $"{found.Average()} a year");
        Assert.True(found.Count(f => f > 1) <= 20, $"{found.Count(f => f > 1)} of 100 years had more than one");
    }

    [Fact]
    public void A_step_of_four_deviations_of_a_day_is_dated_within_three_days()
    {
        var random = new Random(7);
        int near = Enumerable.Range(0, 50).Count(_ =>
        {
            double[] y = [.. Noise(random, 365, 0.3).Select((e, i) => e + (i >= 160 ? 4 : 0))];
            return ChangePoints.Find(Days(y)).Any(c => Math.Abs(c.At - Start.DayNumber - 160) <= 3);
        });
        Assert.True(near >= 47, $"{near} of 50");
    }

    /// <summary>By construction: a year's bend of four deviations of the noise either way is no change.</summary>
    [Fact]
    public void A_season_is_no_change()
    {
        var random = new Random(9);
        int[] found = [.. Enumerable.Range(0, 50).Select(_ => ChangePoints.Find(Days(
            Noise(random, 365, 0.3).Select((e, i) => e + (4 * Math.Sin(2 * Math.PI * i / 365))))).Count)];
        Assert.True(found.Count(f => f > 1) <= 5, $"{found.Count(f => f > 1)} of 50 years had more than one");
    }

    [Fact]
    public void A_level_that_was_typed_in_and_never_moves_has_no_change() =>
        Assert.Empty(ChangePoints.Find(Days(Enumerable.Repeat(2.5, 200))));

    [Fact]
    public void A_drought_is_taken_out_of_the_efficiency_and_wear_stays()
    {
        var random = new Random(2);
        double[] head = [.. Noise(random, 300, 0.8).Select((e, i) => 2.5 + (0.02 * e) - (0.5 * Math.Sin(Math.PI * i / 300)))];
        IReadOnlyList<DayValue> heads = Days(head);
        IReadOnlyList<DayValue> figure = Days(Noise(random, 300, 0).Select((e, i) => 0.6 + (0.3 * (head[i] - 2.5)) - (0.0003 * i) + (0.003 * e)));
        HeadCorrection correction = HeadCorrection.Learn(figure, heads)!;
        Assert.Equal(0.3, correction.PerMetre, 0.03);
        TrendLine line = TheilSen.Fit(correction.Apply(figure, heads))!.Value;
        Assert.Equal(-0.0003, line.Slope, 0.00003);
    }

    /// <summary>By hand: neither side drifts, and of the 25 differences of {1,2,3,2,1} and {11,12,13,12,11} the middle one is 10.</summary>
    [Fact]
    public void Before_and_after_differ_by_the_median_of_all_differences()
    {
        Comparison compared = Comparison.Around(Days([1, 2, 3, 2, 1, 99, 11, 12, 13, 12, 11]), Start.AddDays(5))!;
        Assert.Equal((2, 12, 10), (compared.Before, compared.After, compared.Shift));
        Assert.True(compared.Low < 10 && compared.High > 10 && compared.IsCertain, $"{compared}");
        Assert.Null(Comparison.Around(Days([1, 2, 3]), Start.AddDays(1)));
    }

    /// <summary>An upper bound before a repair and a figure after it: their difference is no shift of the ram.</summary>
    [Fact]
    public void A_bound_and_a_figure_are_not_taken_for_a_shift()
    {
        IReadOnlyList<DayValue> days = Days([10, 11, 12, 11, 10, 99, 11, 12, 13, 12, 11]);
        DayValue[] bounded = [.. days.Select((d, i) => d with { IsUpperBound = i < 5 })];
        Assert.True(Comparison.Around(bounded, Start.AddDays(5))!.MixesBounds);
        Assert.True(Comparison.Around(bounded, Start.AddDays(5))!.BeforeIsUpperBound);
        Assert.False(Comparison.Around([.. days.Select(d => d with { IsUpperBound = true })], Start.AddDays(5))!.MixesBounds);
        Assert.False(Comparison.Around(days, Start.AddDays(5))!.MixesBounds);
    }

    /// <summary>Of three bursts one bound can't carry the median out of the two figures; two can.</summary>
    [Theory]
    [InlineData(0, false)]
    [InlineData(1, false)]
    [InlineData(2, true)]
    public void A_day_is_a_bound_from_half_of_its_bursts_on(int bounds, bool isBound)
    {
        DateTimeOffset at = new(2025, 6, 1, 6, 0, 0, TimeSpan.Zero);
        SeasonPoint[] points = [.. Enumerable.Range(0, 3).Select(i => new SeasonPoint(at.AddHours(i), 0.5, 0.02) { IsUpperBound = i < bounds })];
        Assert.Equal(isBound, Assert.Single(DailySeries.Of(points, TimeZoneInfo.Utc)).IsUpperBound);
    }

    /// <summary>By construction: the drift goes on through a day on which nothing came of what was done; on another, a step of ten deviations.</summary>
    [Fact]
    public void Wear_that_goes_on_is_not_laid_on_what_was_done()
    {
        var random = new Random(11);
        int idle = 0;
        for (int run = 0; run < 300; run++)
        {
            IReadOnlyList<DayValue> days = Days(Noise(random, 80, 0.3).Select((e, i) => e - (0.15 * i) + (i > 60 ? 10 : 0)));
            idle += Comparison.Around(days, Start.AddDays(40), [Start.AddDays(60)])!.IsCertain ? 1 : 0;
            Assert.Equal(10, Comparison.Around(days, Start.AddDays(60), [Start.AddDays(40)])!.Shift, 3.0);
        }

        // Of 300 at 95 %, more than 25 come once in two hundred times (binomial).
        Assert.True(idle <= 25, $"{idle} of 300");
    }

    [Fact]
    public void A_forecast_crosses_the_limit_where_the_line_does_and_says_when_it_never_will()
    {
        var random = new Random(4);
        IReadOnlyList<DayValue> days = Days(Noise(random, 100, 0).Select((e, i) => 0.6 - (0.001 * i) + (0.002 * e)));
        Forecast down = Forecast.Of(days, [], 0.4)!;
        Assert.InRange(down.Day!.Value.DayNumber - Start.DayNumber, 195, 205);
        Assert.True(down.Earliest <= Start.AddDays(200) && down.Latest >= Start.AddDays(200), $"{down}");
        Assert.Null(Forecast.Of(days, [], 0.7)!.Day);
        Assert.Null(Forecast.Of(Days([1, 2]), [], 0.7));
    }

    private static IReadOnlyList<DayValue> Days(IEnumerable<double> values) =>
        [.. values.Select((v, i) => new DayValue(Start.AddDays(i), v, v, v, 1))];

    // A process of order one with deviation 1.
    private static IEnumerable<double> Noise(Random random, int count, double correlation)
    {
        double value = Normal.Sample(random, 0, 1);
        for (int i = 0; i < count; i++)
        {
            yield return value;
            value = (correlation * value) + Normal.Sample(random, 0, Math.Sqrt(1 - (correlation * correlation)));
        }
    }

    // Every division by plain recursion over the last change, nothing pruned, residuals summed one by one.
    private static List<double> SlowChanges(double[] x, double[] y, StretchModel model, double penalty)
    {
        var best = new (double Cost, List<double> Changes)?[y.Length + 1];
        best[0] = (0, []);
        for (int end = 1; end <= y.Length; end++)
        {
            for (int start = 0; start <= end - ChangePoints.LeastPoints; start++)
            {
                if (best[start] is { } so)
                {
                    double cost = so.Cost + Residuals(x[start..end], y[start..end], model) + (start > 0 ? penalty : 0);
                    if (best[end] is null || cost < best[end]!.Value.Cost - 1e-9)
                    {
                        best[end] = (cost, start > 0 ? [.. so.Changes, x[start]] : []);
                    }
                }
            }
        }

        return best[^1]!.Value.Changes;
    }

    private static double Residuals(double[] x, double[] y, StretchModel model)
    {
        (double a, double b) = model == StretchModel.Level ? (y.Average(), 0) : MathNet.Numerics.Fit.Line(x, y);
        return x.Zip(y, (u, v) => v - a - (b * u)).Sum(r => r * r);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private static string Fixture(string name) => Path.Combine(AppContext.BaseDirectory, "Fixtures", name);
}
