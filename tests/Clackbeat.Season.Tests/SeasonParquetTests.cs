using Clackbeat.Season.Export;
using Clackbeat.Season.Store;
using Clackbeat.Signal.Beats;
using ParquetSharp;

namespace Clackbeat.Season.Tests;

/// <summary>Read back by Apache Arrow's C++ library, which is not the one that writes.</summary>
public sealed class SeasonParquetTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Another_program_reads_every_burst_and_beat_by_site_and_day()
    {
        using var home = new FileHome();
        using ISeasonStore store = home.Open();
        store.Add([.. Enumerable.Range(0, 200).Select(KilledWriter.Burst)]);
        (int days, int bursts, long beats) = new SeasonParquet(_folder.Path).Write(store, KilledWriter.Ram, TimeSpanUtc.All);

        // 200 bursts from 1970-01-01 on, one in 15 minutes: 96 a day.
        Assert.Equal((3, 200, 10_000), (days, bursts, beats));
        string second = Path.Combine(_folder.Path, "bursts", $"site={KilledWriter.Ram}", "day=1970-01-02", "part-0.parquet");
        using (var file = new ParquetFileReader(second))
        {
            Assert.Equal(96, file.FileMetaData.NumRows);
            Assert.Equal(KilledWriter.Burst(96).StartUtc.UtcDateTime, Column<DateTime>(file, "burst_start_utc")[0]);
            Assert.Equal(50 + 0.096, Column<double?>(file, "rate")[0]!.Value, 1e-12);
            Assert.Equal(0.1, Column<double?>(file, "rate_u")[0]);
            Assert.Null(Column<double?>(file, "peak_max_u")[0]);
            Assert.Null(Column<double?>(file, "efficiency")[0]);
            Assert.Equal("beating", Column<string>(file, "state")[95]);
            Assert.Equal("healthy", Column<string>(file, "condition")[95]);
            Assert.Equal(Convert.ToHexStringLower(KilledWriter.Burst(191).SourceHash), Column<string>(file, "burst_hash")[95]);
        }

        using var rows = new ParquetFileReader(second.Replace("bursts", "beats", StringComparison.Ordinal));
        Assert.Equal(96 * 50, rows.FileMetaData.NumRows);
        Assert.Equal([1, 2, 3], Column<int>(rows, "beat")[..3]);
        Assert.Equal(1.2, Column<double?>(rows, "closure_s")[1]!.Value, 1e-9);
        Assert.Null(Column<double?>(rows, "delivered_m3")[0]);
    }

    [Fact]
    public void A_name_that_no_folder_can_have_is_escaped_and_flows_are_kept()
    {
        using var home = new FileHome();
        using ISeasonStore store = home.Open();
        store.Add([KilledWriter.Burst(1) with { Ram = "north/south: 50%", Beats = [new SeasonBeat(1, 2, 3e5, 2e5, -1e4, new BeatFlow(1.5, 2e-4, 3e-3))] }]);
        new SeasonParquet(_folder.Path).Write(store, "north/south: 50%", TimeSpanUtc.All);
        using var rows = new ParquetFileReader(Path.Combine(_folder.Path, "beats", "site=north%2Fsouth%3A 50%25", "day=1970-01-01", "part-0.parquet"));
        Assert.Equal(2e-4, Column<double?>(rows, "delivered_m3")[0]!.Value, 1e-12);
    }

    // A ram's name is a text from a file. Decoded as Hive and web addresses do (RFC 3986, percent-encoding), the folder gives it back.
    [Theory]
    [InlineData("..")]
    [InlineData("../../../etc/cron.d/x")]
    [InlineData("/etc/passwd")]
    [InlineData(@"C:\Windows\system32")]
    [InlineData(@"\\server\share")]
    [InlineData("a\0b\nc")]
    [InlineData("CON")]
    [InlineData("ends. ")]
    [InlineData("ends.")]
    [InlineData("100 % 'north' *?<>|")]
    [InlineData("\uFF0E\uFF0E\u2215räm")]
    public void Whatever_a_ram_is_called_its_files_lie_in_folders_of_their_own(string ram)
    {
        string site = OnlyFolderOf(ram);
        Assert.DoesNotMatch(@"[/\\:*?<>|\x00-\x1F]|[. ]$", site);
        Assert.Equal(ram, Uri.UnescapeDataString(site));
    }

    [Fact]
    public void A_name_too_long_for_a_disk_is_cut_and_still_no_other_s()
    {
        string first = OnlyFolderOf(new string('ü', 5000));
        string second = OnlyFolderOf(new string('ü', 4999));
        Assert.NotEqual(first, second);
        Assert.InRange(System.Text.Encoding.UTF8.GetByteCount(first), 1, 255 - "site=".Length);
    }

    private string OnlyFolderOf(string ram)
    {
        using var home = new FileHome();
        using ISeasonStore store = home.Open();
        store.Add([KilledWriter.Burst(1) with { Ram = ram }]);
        string root = _folder[$"export {Guid.NewGuid():N}"];
        new SeasonParquet(root).Write(store, ram, TimeSpanUtc.All);
        string[] places = [.. Directory.GetFiles(root, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(root, f).Replace('\\', '/')).Order()];
        string site = places[0].Split('/')[1]["site=".Length..];
        Assert.Equal([$"beats/site={site}/day=1970-01-01/part-0.parquet", $"bursts/site={site}/day=1970-01-01/part-0.parquet"], places);
        return site;
    }

    private static T[] Column<T>(ParquetFileReader file, string name)
    {
        using RowGroupReader group = file.RowGroup(0);
        int at = Enumerable.Range(0, file.FileMetaData.NumColumns).Single(i => file.FileMetaData.Schema.Column(i).Name == name);
        using ColumnReader column = group.Column(at);
        using LogicalColumnReader<T> values = column.LogicalReader<T>();
        return values.ReadAll((int)group.MetaData.NumRows);
    }
}
