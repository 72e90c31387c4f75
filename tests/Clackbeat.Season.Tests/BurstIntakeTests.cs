using Clackbeat.Season.Store;
using Clackbeat.Site;

namespace Clackbeat.Season.Tests;

public sealed class BurstIntakeTests
{
    [Fact]
    public void Bursts_are_stored_once_whatever_order_their_analyses_end_in()
    {
        using var home = new FileHome();
        using ISeasonStore store = home.Open();
        store.Add([KilledWriter.Burst(5)]);
        var intake = new BurstIntake(store, workers: 4);
        int analysed = 0;
        for (int n = 0; n < 50; n++)
        {
            SeasonBurst burst = KilledWriter.Burst(n % 40);
            int wait = (n * 7) % 5;
            if (!intake.Knows(burst.Ram, burst.SourceHash))
            {
                intake.Take(() =>
                {
                    Thread.Sleep(wait);
                    Interlocked.Increment(ref analysed);
                    return burst;
                });
            }
        }

        intake.Finish();
        Assert.Equal((39, 11, 39), (intake.Added, intake.Known, analysed));
        Assert.Equal(Enumerable.Range(0, 40).Select(n => $"burst {n}"), store.Bursts(KilledWriter.Ram, TimeSpanUtc.All).Select(b => b.Source));
    }

    [Fact]
    public void A_burst_that_cannot_be_used_stops_the_intake_and_what_came_before_is_kept()
    {
        using var home = new FileHome();
        using ISeasonStore store = home.Open();
        var intake = new BurstIntake(store, workers: 2);
        void Take(int n) => intake.Take(() => n == 3 ? throw new InputException("broken") : KilledWriter.Burst(n));
        Assert.Throws<InputException>(() =>
        {
            Enumerable.Range(0, 10).ToList().ForEach(Take);
            intake.Finish();
        });
        Assert.Equal(["burst 0", "burst 1", "burst 2"], store.Bursts(KilledWriter.Ram, TimeSpanUtc.All).Select(b => b.Source));
    }
}
