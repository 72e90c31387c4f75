using System.Diagnostics;
using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Site;
using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Tests;

public sealed class SqliteStoreTests : IDisposable
{
    private const string Ram = "the ram at the mill";

    // 200 kills take some minutes; CLACKBEAT_LONG=1 asks for them.
    private static readonly int Kills = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1" ? 200 : 5;

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_burst_comes_back_as_it_was_stored()
    {
        using var store = SqliteSeasonStore.Open(_folder.File("a.db"), create: true);
        SeasonBurst burst = KilledWriter.Burst(7);
        Assert.Equal(1, store.Add([burst]));
        SeasonBurst back = Assert.Single(store.Bursts(Ram, TimeSpanUtc.All));
        Assert.Equal(burst.SourceHash, back.SourceHash);
        Assert.Equal((burst.Source, burst.StartUtc, burst.DurationS, burst.State), (back.Source, back.StartUtc, back.DurationS, back.State));
        Assert.Equal(burst.Figures, back.Figures);
        Assert.Equal(burst.Conditions, back.Conditions);
        Assert.Equal(burst.Beats.Count, back.Beats.Count);
        Assert.Equal(new SeasonPoint(burst.StartUtc, 50.007, 0.1), Assert.Single(store.Series(Ram, SeasonFigure.Rate, TimeSpanUtc.All)));
    }

    [Fact]
    public void The_same_burst_of_the_same_ram_is_stored_once()
    {
        using var store = SqliteSeasonStore.Open(_folder.File("a.db"), create: true);
        SeasonBurst burst = KilledWriter.Burst(1);
        Assert.Equal(1, store.Add([burst, burst with { Source = "a copy of the file" }]));
        Assert.Equal(0, store.Add([burst]));
        Assert.True(store.Has(Ram, burst.SourceHash));
        Assert.Equal(1, store.Add([burst with { Ram = "another ram" }]));
        Assert.Equal(["another ram", Ram], store.Rams());
    }

    [Fact]
    public void A_batch_that_fails_leaves_nothing_behind()
    {
        using var store = SqliteSeasonStore.Open(_folder.File("a.db"), create: true);
        SeasonBurst broken = KilledWriter.Burst(2) with { Beats = [new SeasonBeat(double.NaN, 1, 1, 1, 1, null)] };
        Assert.ThrowsAny<Exception>(() => store.Add([KilledWriter.Burst(1), broken]));
        Assert.Empty(store.Rams());
        Assert.Equal(1, store.Add([KilledWriter.Burst(1)]));
    }

    [Fact]
    public void A_mark_is_kept_and_kept_once()
    {
        using var store = SqliteSeasonStore.Open(_folder.File("a.db"), create: true);
        var mark = new MaintenanceMark(Ram, new DateTimeOffset(2025, 6, 12, 14, 0, 0, TimeSpan.FromHours(2)), "replaced clack rubber");
        store.Add(mark);
        store.Add(mark);
        Assert.Equal(mark, Assert.Single(store.Marks(Ram)));
    }

    [Fact]
    public void A_store_of_any_earlier_version_is_brought_up_to_date_with_all_it_holds()
    {
        for (int version = 1; version <= SqliteSchema.Latest; version++)
        {
            string path = _folder.File($"v{version}.db");
            using (SqliteConnection old = SqliteSeasonStore.Connect(path, create: true))
            {
                SqliteSchema.Bring(old, path, upTo: version);
                using var writer = old.CreateCommand();
                writer.CommandText = """
                    INSERT INTO ram (id, name) VALUES (1, 'the ram at the mill');
                    INSERT INTO burst VALUES (1, 1, x'00ff', 'old', 1000000, 60000000, 'stopped-open', 0, 'complete');
                    INSERT INTO figure VALUES (1, 'rate', 1000000, 1, 50, 0.1);
                    INSERT INTO beats VALUES (1, $beats);
                    """;
                writer.Parameters.AddWithValue("$beats", BeatPack.Pack([]));
                writer.ExecuteNonQuery();
            }

            using var store = SqliteSeasonStore.Open(path, create: false);
            Assert.Equal("old", Assert.Single(store.Bursts(Ram, TimeSpanUtc.All)).Source);
            store.Add(new MaintenanceMark(Ram, DateTimeOffset.UnixEpoch, "greased it"));
            Assert.Single(store.Marks(Ram));
        }
    }

    [Fact]
    public void A_store_of_a_later_version_another_database_and_a_text_are_refused_in_words()
    {
        string later = _folder.File("later.db");
        SqliteSeasonStore.Open(later, create: true).Dispose();
        Execute(later, "INSERT INTO schema_version VALUES (99, 0)");
        string other = _folder.File("other.db");
        Execute(other, "CREATE TABLE song (name TEXT)");
        string text = _folder.File("text.db");
        File.WriteAllText(text, string.Concat(Enumerable.Repeat("t_s,p_kPa\n", 500)));

        Assert.Contains("version 99", Refusal(later), StringComparison.Ordinal);
        Assert.Contains("no season store", Refusal(other), StringComparison.Ordinal);
        Assert.Contains("no season store", Refusal(text), StringComparison.Ordinal);
        Assert.Contains("no such season store", Refusal(_folder.File("missing.db")), StringComparison.Ordinal);
        Assert.False(File.Exists(_folder.File("missing.db")));
    }

    [Fact]
    public void A_backup_made_while_another_writes_is_a_whole_store()
    {
        using var store = SqliteSeasonStore.Open(_folder.File("a.db"), create: true);
        store.Add([.. Enumerable.Range(0, 20).Select(KilledWriter.Burst)]);
        using var other = SqliteSeasonStore.Open(_folder.File("a.db"), create: false);
        other.Add([KilledWriter.Burst(20)]);
        store.BackUp(_folder.File("b.db"));
        other.Add([KilledWriter.Burst(21)]);
        using var restored = SqliteSeasonStore.Open(_folder.File("b.db"), create: false);
        Assert.Equal(21, restored.States(Ram, TimeSpanUtc.All).Count);
        Assert.Throws<InputException>(() => store.BackUp(_folder.File("b.db")));
    }

    [Fact]
    public void Killing_the_writer_at_any_moment_loses_no_stored_burst_and_stores_none_twice()
    {
        string path = _folder.File("killed.db");
        var random = new Random(8);
        int next = 1;
        for (int kill = 0; kill < Kills; kill++)
        {
            int acknowledged = RunAndKill(path, next, random.Next(0, 700));
            using var store = SqliteSeasonStore.Open(path, create: true);
            SeasonBurst[] bursts = [.. store.Bursts(Ram, TimeSpanUtc.All)];
            Assert.Equal(bursts.Length, bursts.Select(b => b.Source).Distinct().Count());
            var stored = bursts.Select(b => b.Source).ToHashSet();
            Assert.All(Enumerable.Range(1, Math.Max(acknowledged, next - 1)), n => Assert.Contains($"burst {n}", stored));
            Assert.All(bursts, b => Assert.Equal((2, 50), (b.Figures.Count, b.Beats.Count)));
            next = Math.Max(acknowledged, next - 1) + 1;
        }

        Assert.Equal("ok", Execute(path, "PRAGMA integrity_check"));
        Assert.True(next > Kills, "The writer was killed before it could store anything.");
    }

    private static int RunAndKill(string path, int first, int afterMs)
    {
        using var process = Process.Start(new ProcessStartInfo(Environment.ProcessPath!.EndsWith("dotnet", StringComparison.Ordinal) ? Environment.ProcessPath : "dotnet")
        {
            ArgumentList = { typeof(KilledWriter).Assembly.Location, path, first.ToString(CultureInfo.InvariantCulture) },
            RedirectStandardOutput = true,
        })!;
        Assert.Equal("open", process.StandardOutput.ReadLine());
        Thread.Sleep(afterMs);
        process.Kill();
        string[] said = process.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        process.WaitForExit();
        return said.Length == 0 ? 0 : int.Parse(said[^1], CultureInfo.InvariantCulture);
    }

    private static string Refusal(string path) =>
        Assert.Throws<InputException>(() => SqliteSeasonStore.Open(path, create: false)).Message;

    private static object? Execute(string path, string sql)
    {
        using SqliteConnection connection = SqliteSeasonStore.Connect(path, create: true);
        using SqliteCommand command = connection.CreateCommand();
        command.CommandText = sql;
        return command.ExecuteScalar();
    }
}
