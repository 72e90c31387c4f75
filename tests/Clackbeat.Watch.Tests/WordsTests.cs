using System.Text.Json;
using System.Text.RegularExpressions;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>Every phrase of the page stands in one place, in every language, and every phrase that is asked for is there.</summary>
public partial class WordsTests
{
    private static readonly JsonElement Book = JsonDocument.Parse(PageFiles.Find("words.json")!).RootElement;

    private static readonly string[] Languages = [.. Book.GetProperty("languages").EnumerateObject().Select(l => l.Name)];

    private static readonly HashSet<string> Keys = [.. Book.GetProperty("words").EnumerateObject().Select(w => w.Name)];

    [Fact]
    public void Every_phrase_has_every_language_and_the_same_places_in_each()
    {
        Assert.True(Languages.Length >= 2);
        foreach (JsonProperty phrase in Book.GetProperty("words").EnumerateObject())
        {
            string[] places = [.. Languages.Select(l => string.Join(' ', Places().Matches(phrase.Value.GetProperty(l).GetString()!).Select(m => m.Value).Order()))];
            Assert.All(places, p => Assert.Equal(places[0], p));
        }
    }

    [Fact]
    public void Every_condition_and_every_sign_of_the_beat_has_its_words()
    {
        string[] conditions = [.. Conditions.Beating, Conditions.StoppedOpen, Conditions.StoppedShut, Conditions.SensorFault];
        Assert.All(conditions, c => Assert.Superset(new HashSet<string> { $"condition.{c}", $"check.{c}" }, Keys));
        foreach (Sign sign in Enum.GetValues<Sign>())
        {
            JsonElement entry = Book.GetProperty("signs").GetProperty(sign.ToString());
            Assert.All(Languages, l => Assert.NotEmpty(entry.GetProperty("rise").GetProperty(l).GetString()! + entry.GetProperty("fall").GetProperty(l).GetString()!));
        }
    }

    [Fact]
    public void Every_state_of_ram_and_link_has_its_headline()
    {
        IEnumerable<string> states = Enum.GetNames<LiveState>().Where(n => n != nameof(LiveState.Beating)).Concat(Enum.GetNames<LinkState>().Where(n => n != nameof(LinkState.Streaming)));
        Assert.All(states, state =>
        {
            string key = JsonNamingPolicy.KebabCaseLower.ConvertName(state);
            Assert.Superset(new HashSet<string> { $"head.{key}", $"head.{key}.more" }, Keys);
        });
    }

    [Fact]
    public void Every_phrase_that_the_page_asks_for_by_its_whole_name_is_there()
    {
        foreach (string file in new[] { "index.html", "join.html", "main.js", "figures.js", "verdict.js", "desk.js", "trace.js", "overlay.js", "join.js" })
        {
            string text = System.Text.Encoding.UTF8.GetString(PageFiles.Find(file)!);
            foreach (Match asked in Asked().Matches(text).Concat(InPage().Matches(text)))
            {
                Assert.Contains(asked.Groups[1].Value, Keys);
            }
        }
    }

    [Fact]
    public void No_file_of_the_page_names_an_address_elsewhere()
    {
        foreach (string file in new[] { "index.html", "join.html", "watch.css", "main.js", "figures.js", "verdict.js", "desk.js", "trace.js", "overlay.js", "plots.js", "dom.js", "prefs.js", "words.js", "words.json", "uPlot.min.css" })
        {
            string text = System.Text.Encoding.UTF8.GetString(PageFiles.Find(file)!);
            Assert.All(Address().Matches(text), a => Assert.Equal("http://www.w3.org/2000/svg", a.Value));
        }
    }

    [GeneratedRegex(@"\{\w+\}")]
    private static partial Regex Places();

    [GeneratedRegex(@"say\(""([\w.\-]+[\w])""")]
    private static partial Regex Asked();

    [GeneratedRegex(@"data-wl?=""([\w.\-]+)""")]
    private static partial Regex InPage();

    [GeneratedRegex(@"(https?:)?//[\w.]+\.\w+[\w./]*")]
    private static partial Regex Address();
}
