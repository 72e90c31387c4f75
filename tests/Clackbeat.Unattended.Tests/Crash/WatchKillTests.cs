using System.Globalization;
using Clackbeat.Season.Store;
using Clackbeat.Unattended.Intake;
using Clackbeat.Unattended.Tests.Bench;

namespace Clackbeat.Unattended.Tests.Crash;

/// <summary>A watched folder whose program is killed at any moment.</summary>
public class WatchKillTests
{
    private const int AKill = 40;

    [Fact]
    public void Killing_who_watches_a_folder_loses_no_file_and_stores_none_twice()
    {
        using var folder = new TemporaryFolder();
        string store = folder["season.db"];
        string watched = Directory.CreateDirectory(folder["in"]).FullName;
        var random = new Random(10);
        int made = 0;
        int said = 0;
        for (int kill = 0; kill < KilledProgram.Kills; kill++)
        {
            for (int i = 0; i < AKill; i++, made++)
            {
                File.WriteAllText(Path.Combine(watched, $"{made}.csv"), made % 10 == 9 ? KilledWatch.Bad : made.ToString(CultureInfo.InvariantCulture));
            }

            said += KilledProgram.RunAndKill(typeof(KilledWatch).Assembly, [KilledWatch.Word, watched, store], random.Next(0, 400), kill % 2 == 1);
            using ISeasonStore open = SeasonStores.Open(store, create: true);
            string[] stored = [.. KilledWatch.Stored(open)];
            Assert.Equal(stored.Length, stored.Distinct().Count());

            // A file whose line the kill prevented is taken again and said again, and the store has it once.
            Assert.True(stored.Length >= said - kill, $"{said} files were said to be stored, {stored.Length} are");
        }

        // What the last kill left is taken at the next start.
        var clock = new BenchClock(LogBench.Start);
        using ISeasonStore season = SeasonStores.Open(store, create: false);
        var watch = new FolderWatch(watched, file => KilledWatch.Take(season, file, () => { }), clock, _ => { });
        KilledWatch.Pass(watch, clock);
        KilledWatch.Pass(watch, clock);
        Assert.Equal(
            Enumerable.Range(0, made).Where(n => n % 10 != 9).Select(n => n.ToString(CultureInfo.InvariantCulture)), KilledWatch.Stored(season));
        string aside = Path.Combine(watched, FolderWatch.Aside);
        Assert.Equal(made / 10, Directory.GetFiles(aside, "*.csv").Length);
        Assert.All(Directory.GetFiles(aside, "*.csv"), bad => Assert.True(File.Exists(bad + ".why.txt")));
        Assert.True(said > 0, "It was killed before it could store anything.");
    }
}
