using Clackbeat.Hydraulics.Fatigue;
using CsCheck;

namespace Clackbeat.Hydraulics.Tests.Fatigue;

public class RainflowTests
{
    private static readonly Gen<double[]> Histories = Gen.Int[-20, 20].Select(i => (double)i).Array[2, 80];

    [Fact]
    public void A_million_random_points_are_counted_like_the_standard_s_own_steps_in_any_chunking()
    {
        var random = new Random(20240607);
        double[] samples = new double[1_000_000];
        for (int i = 0; i < samples.Length; i++)
        {
            samples[i] = random.Next(0, 1000);
        }

        Dictionary<(double Range, double Mean), double> plain = Grouped(PlainRainflow.Count(samples));
        foreach (RainflowConvention convention in Enum.GetValues<RainflowConvention>())
        {
            foreach (int chunk in new[] { 1, 977, 1_000_000 })
            {
                AssertSame(plain, Grouped(Stream(samples, convention, chunk)));
            }
        }
    }

    [Fact]
    public void Both_conventions_and_the_plain_twin_agree_on_every_short_history() => Histories.Sample(samples =>
    {
        Dictionary<(double Range, double Mean), double> plain = Grouped(PlainRainflow.Count(samples));
        Assert.Equal(plain, Grouped(Stream(samples, RainflowConvention.AstmThreePoint, 7)));
        Assert.Equal(plain, Grouped(Stream(samples, RainflowConvention.FourPoint, 3)));
    });

    // The largest excursion of the whole history is always one counted range (Downing and Socie 1982).
    [Fact]
    public void The_largest_range_is_the_whole_excursion() => Histories.Where(h => h.Distinct().Count() > 1).Sample(samples =>
        Stream(samples, RainflowConvention.FourPoint, 5).Max(c => c.Range) == samples.Max() - samples.Min());

    // Each half of a cycle is one run of the history from turning point to turning point, so ranges add up to the path.
    [Fact]
    public void Counted_ranges_add_up_to_the_path_walked() => Histories.Sample(samples =>
    {
        double path = samples.Zip(samples.Skip(1), (a, b) => Math.Abs(b - a)).Sum();
        Assert.Equal(path, Stream(samples, RainflowConvention.AstmThreePoint, 1).Sum(c => 2 * c.Count * c.Range), 1e-6);
    });

    [Fact]
    public void What_waits_stays_bounded_on_the_worst_history_there_is()
    {
        // Ever wider, then ever narrower swings close no cycle; the resolution bounds how many fit: 2 · span / resolution.
        var counter = new RainflowCounter(_ => { }, 1);
        for (int i = 0; i < 100_000; i++)
        {
            double width = i < 50_000 ? i / 500.0 : (100_000 - i) / 500.0;
            counter.Add(i % 2 == 0 ? width : -width);
        }

        Assert.InRange(counter.Pending, 1, 2 * 200 + 2);
    }

    [Fact]
    public void A_million_random_points_leave_only_what_the_resolution_allows_waiting()
    {
        var random = new Random(7);
        var counter = new RainflowCounter(_ => { }, 1);
        int most = 0;
        for (int i = 0; i < 1_000_000; i++)
        {
            counter.Add(1000 * random.NextDouble());
            most = Math.Max(most, counter.Pending);
        }

        Assert.InRange(most, 1, 2 * 1000 + 2);
    }

    // Swings up to the hysteresis vanish; every larger one stays, but may end a hysteresis' width elsewhere at either end.
    [Fact]
    public void Hysteresis_takes_away_just_the_small_swings() => Gen.Select(Histories, Gen.Int[1, 6]).Sample((samples, width) =>
    {
        double[] whole = [-30, .. samples, 30, -30];
        List<RainflowCycle> all = Stream(whole, RainflowConvention.FourPoint, 1);
        List<RainflowCycle> kept = Stream(whole, RainflowConvention.FourPoint, 1, width);
        Assert.Equal(
            all.Where(c => c.Range > width).Sum(c => c.Count),
            kept.Sum(c => c.Count));
        Assert.DoesNotContain(kept, c => c.Range <= width);
    });

    [Fact]
    public void Gaps_are_joined_and_a_record_without_any_swing_has_no_cycle()
    {
        List<RainflowCycle> joined = Stream([0, 5, double.NaN, double.NaN, 0], RainflowConvention.AstmThreePoint, 2);
        Assert.Equal(Stream([0, 5, 0], RainflowConvention.AstmThreePoint, 2), joined);
        Assert.Empty(Stream([3, 3, 3], RainflowConvention.AstmThreePoint, 1));
        Assert.Empty(Stream([], RainflowConvention.FourPoint, 1));
    }

    [Fact]
    public void The_histogram_keeps_every_cycle_and_every_range() => Histories.Sample(samples =>
    {
        List<RainflowCycle> cycles = Stream(samples, RainflowConvention.AstmThreePoint, 1);
        var histogram = new RainflowHistogram(-5, 5, 10);
        cycles.ForEach(histogram.Add);
        Assert.Equal(cycles.Sum(c => c.Count), histogram.TotalCount, 1e-9);
        Assert.Equal(cycles.Sum(c => c.Count * c.Range), histogram.Cycles().Sum(c => c.Count * c.Range), 1e-6);
        Assert.Equal(histogram.TotalCount, (from r in Enumerable.Range(0, 10) from m in Enumerable.Range(0, 10) select histogram.CountAt(r, m)).Sum(), 1e-9);
    });

    private static List<RainflowCycle> Stream(double[] samples, RainflowConvention convention, int chunk, double hysteresis = 0)
    {
        var cycles = new List<RainflowCycle>();
        var counter = new RainflowCounter(cycles.Add, convention: convention, hysteresis: hysteresis);
        for (int start = 0; start < samples.Length; start += chunk)
        {
            counter.Add(samples.AsSpan(start, Math.Min(chunk, samples.Length - start)));
        }

        counter.Finish();
        return cycles;
    }

    // Assert.Equal on dictionaries of a million entries takes most of a minute.
    private static void AssertSame(
        Dictionary<(double Range, double Mean), double> plain, Dictionary<(double Range, double Mean), double> streamed)
    {
        Assert.Equal(plain.Count, streamed.Count);
        Assert.DoesNotContain(plain, entry => streamed.GetValueOrDefault(entry.Key) != entry.Value);
    }

    private static Dictionary<(double Range, double Mean), double> Grouped(List<RainflowCycle> cycles) =>
        cycles.GroupBy(c => (c.Range, c.Mean)).ToDictionary(g => g.Key, g => g.Sum(c => c.Count));
}
