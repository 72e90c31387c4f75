using System.Text.Json;
using Clackbeat.Recording.Reading;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Tests.Bench;
using Microsoft.Data.Sqlite;
using Xunit.Abstractions;

namespace Clackbeat.Unattended.Tests.Crash;

/// <summary>
/// The power goes at every single moment of an unattended log, from its first folder to the database's last checkpoint: every
/// burst whose samples were on the disk is found, what lies among the stored ones is in the store, and the next start makes all
/// of it good. A few bursts and fates a moment, unless CLACKBEAT_LONG=1 asks for more.
/// </summary>
public sealed class LogCrashTests(ITestOutputHelper output) : IDisposable
{
    private static readonly bool Long = Environment.GetEnvironmentVariable("CLACKBEAT_LONG") == "1";
    private static readonly int Bursts = Long ? 12 : 4;
    private static readonly int Seeds = Long ? 8 : 1;
    private static readonly int NextStarts = Long ? 40 : 3;

    private readonly TemporaryFolder _traced = new();
    private readonly TemporaryFolder _images = new();
    private int _image;

    public void Dispose()
    {
        _traced.Dispose();
        _images.Dispose();
    }

    [SkippableFact]
    public void After_a_crash_at_any_moment_every_burst_is_in_the_store_or_still_to_be_stored()
    {
        Skip.IfNot(TracedLog.IsPossible(), "strace(1) is not installed here, or may not trace");
        string folder = Directory.CreateDirectory(_traced["work"]).FullName;
        IReadOnlyList<FileCall> calls = TracedLog.Run(folder, _traced["trace"], Bursts);
        CrashedFolder disk = new();
        HashSet<string> stored = [];
        List<(int Moment, int Seed)> starts = [.. Enumerable.Range(1, NextStarts).Select(i => (calls.Count * i / (NextStarts + 1), 0))];
        int crashes = 0;
        for (int moment = 0; moment < calls.Count; moment++)
        {
            disk.Do(calls[moment]);
            Follow(calls[moment], stored);
            string[] captured = [.. disk.Captured().Where(f => IsBurst(f.Path)).Select(f => BurstOf(f.Path))];
            for (int seed = 0; seed < Seeds; seed++, crashes++)
            {
                Dictionary<string, byte[]?> found = disk.Found(new Random((moment * 1000) + seed), inOrder: (moment + seed) % 2 == 0);
                string image = Lay(found);
                string[] inStore = Stored(image);
                string where = $"moment {moment}, {calls[moment].Act} {calls[moment].Path}";
                Assert.True(!captured.Except(found.Keys.Where(IsBurst).Select(BurstOf)).Any(), $"{where}: a burst is gone");
                Assert.True(!found.Keys.Where(IsSettled).Select(BurstOf).Except(inStore).Any(), $"{where}: put away, but not in the store");
                Assert.True(!stored.Except(inStore).Any(), $"{where}: the store has lost a burst");
                AssertNotes(image);
                if (starts.Contains((moment, seed)))
                {
                    StartAgain(image, where);
                }

                Directory.Delete(image, recursive: true);
            }
        }

        output.WriteLine($"{calls.Count} moments of {stored.Count} stored bursts, {crashes} crashes, {starts.Count} next starts; by kind: "
            + string.Join(", ", calls.CountBy(c => c.Act).Select(c => $"{c.Value} {c.Key}")));
        Assert.True(stored.Count >= Bursts, "the log has worked");
        Assert.Contains(calls, c => c.Act == FileAct.Remove && IsBurst(c.Path));
    }

    // Only what is in the store is put into its day's folder; what the disk rule takes away stays stored.
    private static void Follow(FileCall call, HashSet<string> stored)
    {
        if (call.Act == FileAct.Rename && IsSettled(call.To))
        {
            stored.Add(BurstOf(call.To));
        }
    }

    private static bool IsBurst(string path) => path.StartsWith("log/bursts/mill/", StringComparison.Ordinal) && path.Contains(".cbrec", StringComparison.Ordinal);

    private static bool IsSettled(string path) => IsBurst(path) && !path.Contains("/pending/", StringComparison.Ordinal);

    private static string BurstOf(string path) => Path.GetFileName(path).Replace(".part", "", StringComparison.Ordinal);

    private string Lay(Dictionary<string, byte[]?> found)
    {
        string image = Directory.CreateDirectory(_images[$"{_image++}"]).FullName;
        foreach ((string path, byte[]? content) in found)
        {
            if (content is null)
            {
                Directory.CreateDirectory(Path.Combine(image, path));
            }
            else if (!path.EndsWith("-shm", StringComparison.Ordinal))
            {
                // The index beside the database's log is shared memory: no system keeps it over a restart.
                File.WriteAllBytes(Path.Combine(image, path), content);
            }
        }

        return image;
    }

    // As the next start finds it: opened by the program's own store, sound, and no burst twice.
    private static string[] Stored(string image)
    {
        string path = Path.Combine(image, "season.db");
        if (!File.Exists(path))
        {
            return [];
        }

        using var store = SqliteSeasonStore.Open(path, create: true);
        string[] sources = [.. store.Bursts("mill", TimeSpanUtc.All).Select(b => BurstOf(b.Source))];
        Assert.Equal(sources.Length, sources.Distinct().Count());
        using var check = new SqliteConnection($"Data Source={path};Pooling=False");
        check.Open();
        using SqliteCommand command = check.CreateCommand();
        command.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", command.ExecuteScalar());
        return sources;
    }

    // Small files that are written in place of others are whole, old or new.
    private static void AssertNotes(string image)
    {
        foreach (string note in Directory.Exists(Path.Combine(image, "log")) ? Directory.GetFiles(Path.Combine(image, "log"), "*.json") : [])
        {
            JsonDocument.Parse(File.ReadAllText(note)).Dispose();
        }
    }

    // The logger is out, so that nothing new comes: what was left is stored, once, and nothing waits.
    private static void StartAgain(string image, string where)
    {
        using var bench = new LogBench(image);
        bench.Run(bench.Settings(LogBench.RamOn("/bench/ttyUSB0")), TimeSpan.FromMinutes(1));
        Assert.False(bench.Said("Something went wrong"), where);
        Assert.DoesNotContain(bench.Files("*.cbrec*"), f => f.Contains("pending", StringComparison.Ordinal));
        string[] telling = [.. bench.Files().Where(f => RecordingScan.Of(f).Samples > 0.55 * 20 * 250).Select(BurstOf)];
        Assert.Empty(telling.Except(Stored(image)));
    }
}
