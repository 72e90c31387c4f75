using System.Net;
using Clackbeat.Season.Overview;
using Clackbeat.Season.Store;
using Clackbeat.Season.Upkeep;
using Clackbeat.Site;
using Clackbeat.Watch.Overview;

namespace Clackbeat.Watch.Tests;

/// <summary>What is due, counted by hand on the season that was made up, and the pages that say so.</summary>
public sealed class UpkeepTests : IDisposable
{
    private static readonly Dictionary<string, UpkeepInterval> Usual = [];

    private readonly OneSeason _season = new();

    /// <summary>
    /// From the day after the mark to the last burst's end there are 29 days less 4 h, which makes 692 h, at 60 beats a minute. The 4 h that
    /// nobody recorded count as if it had run.
    /// </summary>
    [Fact]
    public void Hours_and_beats_are_counted_since_the_mark()
    {
        _season.Store.Add(new MaintenanceMark(OneSeason.Ram, OneSeason.Start(30), "Waste valve checked: new rubber"));
        UpkeepDue valve = Of("waste-valve", Usual);
        Assert.Equal(692, valve.Hours, 6);
        Assert.Equal(692 * 3600, valve.Beats, 3);
        Assert.Equal(4, valve.UnrecordedH, 6);
        Assert.Equal(696 * 3600 / 5e6, valve.Used, 6);
        Assert.False(valve.IsDue);
        Assert.True(Of("waste-valve", new() { ["waste-valve"] = new UpkeepInterval(null, 600, null) }).IsDue);
    }

    [Fact]
    public void A_check_that_no_mark_tells_of_is_counted_from_the_first_record_and_a_mark_counts_in_any_language()
    {
        Assert.True(Of("strainer", Usual) is { IsDue: true, Last: null, Days: 60 });
        _season.Store.Add(new MaintenanceMark(OneSeason.Ram, OneSeason.Start(58), "rejilla limpiada: hojas"));
        Assert.True(Of("strainer", Usual) is { IsDue: false, Days: 2 });
    }

    [Theory]
    [InlineData("90 days", 90.0, null, null)]
    [InlineData("2000 h or 5000000 beats", null, 2000.0, 5e6)]
    [InlineData("2 weeks", 14.0, null, null)]
    [InlineData("never", null, null, null)]
    public void An_interval_is_read_as_it_is_written(string text, double? days, double? hours, double? beats)
    {
        Assert.True(UpkeepInterval.TryParse(text, out UpkeepInterval interval));
        Assert.Equal(new UpkeepInterval(days, hours, beats), interval);
    }

    [Fact]
    public void The_list_of_rams_changes_intervals_and_a_slip_in_it_names_its_line()
    {
        string list = _season["rams.csv"];
        File.WriteAllText(list, "ram,strainer,bolts\nMill,2 weeks,never\n");
        Assert.Equal(new UpkeepInterval(14, null, null), RamList.Read(list)["Mill"].Intervals["strainer"]);
        File.WriteAllText(list, "ram,strainer\nMill,often\n");
        Assert.Contains("line 2", Assert.Throws<InputException>(() => RamList.Read(list)).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/upkeep", "en", "Clean the strainer")]
    [InlineData("/upkeep", "fr", "Nettoyer la crépine")]
    [InlineData("/upkeep/sheet", "es", "Antes de las heladas")]
    [InlineData("/upkeep/sheet", "pt", "Livro de manutenção")]
    public async Task The_page_and_the_sheet_say_what_is_due_in_the_readers_language(string path, string language, string words)
    {
        await using OverviewServer server = await _season.Serve();
        using var client = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{server.Port}") };
        string page = WebUtility.HtmlDecode(await client.GetStringAsync($"{path}?ram={Uri.EscapeDataString(OneSeason.Ram)}&language={language}"));
        Assert.Contains(words, page, StringComparison.Ordinal);
        Assert.DoesNotContain("upkeep.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<form", page, StringComparison.Ordinal);
    }

    public void Dispose() => _season.Dispose();

    private UpkeepDue Of(string code, Dictionary<string, UpkeepInterval> intervals) =>
        UpkeepRules.Judge(_season.Store, OneSeason.Ram, intervals, OneSeason.Now, TimeZoneInfo.Utc).Single(d => d.Task.Code == code);
}
