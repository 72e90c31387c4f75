using Clackbeat.Season.Store;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Season.Tests;

/// <summary>A host whose way to the server breaks: nothing is lost, nothing doubled.</summary>
public sealed class BufferedStoreTests : IDisposable
{
    private const string Ram = KilledWriter.Ram;
    private static readonly bool IsLong = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1";
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [SkippableFact]
    public void What_a_silent_server_missed_waits_in_a_file_and_is_caught_up()
    {
        using var home = new ServerHome();
        home.Admit(anyone: false);
        using (BufferedSeasonStore store = Open(home.Name))
        {
            Assert.Equal(3, store.Add([.. Enumerable.Range(0, 3).Select(KilledWriter.Burst)]));
            store.Add(new MaintenanceMark(Ram, DateTimeOffset.UnixEpoch, "greased it"));
            Assert.Equal(3, store.Waiting);
            Assert.Contains("can't take this now", store.Trouble, StringComparison.Ordinal);
            Assert.True(store.Has(Ram, KilledWriter.Burst(1).SourceHash));
            Assert.Equal(3, store.States(Ram, TimeSpanUtc.All).Count);
        }

        // The host is restarted before the server is.
        using BufferedSeasonStore later = Open(home.Name);
        Assert.Equal(1, later.Add([KilledWriter.Burst(3), KilledWriter.Burst(2)]));
        Assert.Equal(4, later.Waiting);
        home.Admit(anyone: true);
        Assert.Equal(0, later.CatchUp());
        Assert.Null(later.Trouble);
        using ISeasonStore server = home.Open(create: false);
        Assert.Equal(["burst 0", "burst 1", "burst 2", "burst 3"], server.Bursts(Ram, TimeSpanUtc.All).Select(b => b.Source));
        Assert.Single(server.Marks(Ram));
        Assert.Equal(4, later.States(Ram, TimeSpanUtc.All).Count);
    }

    [SkippableFact]
    public void A_server_that_did_not_answer_is_left_alone_for_a_while()
    {
        using var home = new ServerHome();
        using ISeasonStore real = home.Open();
        (int tries, bool there) = (0, false);
        using var store = BufferedSeasonStore.Open(
            () => ++tries > 0 && there ? home.Open() : throw new StoreUnreachableException(Fact.Of("plain", ("what", "gone")), new IOException()), _folder["outbox.db"]);
        there = true;
        store.Add([KilledWriter.Burst(1)]);
        store.Add([KilledWriter.Burst(2)]);
        Assert.Equal((1, 2), (tries, store.Waiting));
    }

    [SkippableFact]
    public void A_refusal_at_the_start_is_told_and_one_later_is_waited_out()
    {
        using var home = new ServerHome();
        bool refuses = true;
        ISeasonStore Connect() => refuses ? throw new InputException("the server refuses this user") : home.Open();
        Assert.Throws<InputException>(() => BufferedSeasonStore.Open(Connect, _folder["outbox.db"]));
        refuses = false;
        using BufferedSeasonStore store = Open(home.Name);
        store.Add([KilledWriter.Burst(1)]);
        home.Execute("ALTER TABLE clackbeat.burst RENAME TO hidden; INSERT INTO clackbeat.schema_version VALUES (99, 0)");
        home.KillConnections();
        Assert.Equal(1, store.Add([KilledWriter.Burst(2)]));
        Assert.Contains("version 99", store.Trouble, StringComparison.Ordinal);
        home.Execute("ALTER TABLE clackbeat.hidden RENAME TO burst; DELETE FROM clackbeat.schema_version WHERE version = 99");
        Assert.Equal(0, store.CatchUp());
        Assert.Equal(2, home.Open().States(Ram, TimeSpanUtc.All).Count);
    }

    [SkippableFact]
    public void Connections_killed_at_random_moments_lose_and_double_nothing()
    {
        using var home = new ServerHome();
        int wanted = IsLong ? 1500 : 45;
        using var done = new CancellationTokenSource();
        var killer = Task.Run(async () =>
        {
            var random = new Random(3);
            while (!done.IsCancellationRequested)
            {
                await Task.Delay(random.Next(0, 300));
                if (random.Next(10) == 0)
                {
                    home.Admit(anyone: false);
                    await Task.Delay(random.Next(0, 60));
                    home.Admit(anyone: true);
                }

                home.KillConnections();
            }
        });
        using BufferedSeasonStore store = Open(home.Name);
        int added = Enumerable.Range(0, wanted / 3).Sum(i => store.Add([.. Enumerable.Range(3 * i, 3).Select(KilledWriter.Burst)]));
        done.Cancel();
        killer.Wait();
        Assert.Equal(0, store.CatchUp());
        IsWhole(home, wanted);

        // A commit that went unanswered is told as known when it is found on the second try.
        Assert.InRange(added, 1, wanted);
    }

    [SkippableFact]
    public void A_line_cut_in_the_middle_of_a_message_loses_and_doubles_nothing()
    {
        using var home = new ServerHome();
        using var line = new CuttableLine(home.Place);
        using BufferedSeasonStore store = Open(home.NameThrough(line.Port));
        var random = new Random(5);
        int rounds = IsLong ? 400 : 25;
        int waited = 0;
        for (int round = 0; round < rounds; round++)
        {
            // A burst and its answers are some kilobytes: the cut falls before, within and after the commit.
            line.CutAfter(random.Next(0, 12_000));
            store.Add([.. Enumerable.Range(2 * round, 2).Select(KilledWriter.Burst)]);
            waited += store.Waiting > 0 ? 1 : 0;
            if (random.Next(3) > 0)
            {
                line.Mend();
            }
        }

        line.Mend();
        Assert.Equal(0, store.CatchUp());
        IsWhole(home, 2 * rounds);
        Assert.InRange(waited, 1, rounds);
    }

    [SkippableFact]
    public void A_host_killed_while_the_server_comes_and_goes_loses_and_doubles_nothing()
    {
        using var home = new ServerHome();
        var random = new Random(9);
        int next = 1;
        for (int kill = 0; kill < (IsLong ? 100 : 2); kill++)
        {
            home.Admit(anyone: random.Next(2) == 0);
            int acknowledged = KilledWriter.RunAndKill(home.Name, next, random.Next(50, 300), kill % 2 == 1, _folder["outbox.db"]);
            next = Math.Max(acknowledged, next - 1) + 1;
        }

        home.Admit(anyone: true);
        using BufferedSeasonStore store = Open(home.Name);
        Assert.Equal(0, store.Waiting);
        using ISeasonStore server = home.Open(create: false);
        string[] stored = [.. server.Bursts(Ram, TimeSpanUtc.All).Select(b => b.Source)];
        Assert.Equal(stored.Length, stored.Distinct().Count());
        Assert.All(Enumerable.Range(1, next - 1), n => Assert.Contains($"burst {n}", stored));
    }

    private BufferedSeasonStore Open(string name) =>
        BufferedSeasonStore.Open(() => SeasonStores.Open(name, create: true), _folder["outbox.db"], retryAfter: TimeSpan.Zero);

    private static void IsWhole(ServerHome home, int bursts)
    {
        using ISeasonStore server = home.Open(create: false);
        SeasonBurst[] stored = [.. server.Bursts(Ram, TimeSpanUtc.All)];
        Assert.Equal(Enumerable.Range(0, bursts).Select(n => $"burst {n}"), stored.Select(b => b.Source));
        Assert.All(stored, b => Assert.Equal((2, 1, 50), (b.Figures.Count, b.Conditions.Count, b.Beats.Count)));
    }
}
