using System.Text.Json;
using System.Text.RegularExpressions;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Watch.Live;
using Clackbeat.Watch.Web;

namespace Clackbeat.Watch.Tests;

/// <summary>Every phrase of the page stands in one place, in every language, and every phrase that is asked for is there.</summary>
public partial class WordsTests
{
    private static readonly JsonElement Book = JsonDocument.Parse(PageFiles.Find("words.json")!).RootElement;

    private static readonly string[] Languages = [.. Book.GetProperty("languages").EnumerateObject().Select(l => l.Name)];

    private static readonly HashSet<string> Keys = [.. Book.GetProperty("words").EnumerateObject().Select(w => w.Name)];

    // All files of the page but the drawing library, whose licence and home page it names.
    private static readonly string[] Files =
    [
        .. typeof(PageFiles).Assembly.GetManifestResourceNames().Select(n => n["page/".Length..])
            .Where(n => Path.GetExtension(n) is ".js" or ".html" or ".css" or ".json" && !n.StartsWith("uPlot.iife", StringComparison.Ordinal)),
    ];

    [Fact]
    public void The_page_speaks_two_languages_at_least_and_knows_their_decimal_signs()
    {
        Assert.Superset(new HashSet<string> { "en", "es" }, Languages.ToHashSet());
        Assert.Equal((".", ","), (Decimal("en"), Decimal("es")));
        Assert.All(Book.GetProperty("words").EnumerateObject(), phrase => Assert.All(Languages, l => Assert.NotEmpty(phrase.Value.GetProperty(l).GetString()!)));
        static string? Decimal(string language) => Book.GetProperty("languages").GetProperty(language).GetProperty("decimal").GetString();
    }

    [Fact]
    public void Every_condition_and_every_feature_of_the_beat_has_its_words()
    {
        string[] conditions = [.. Conditions.Beating, Conditions.StoppedOpen, Conditions.StoppedShut, Conditions.SensorFault];
        Assert.All(conditions, c => Assert.Superset(new HashSet<string> { $"condition.{c}", $"check.{c}" }, Keys));
        foreach (Feature feature in Enum.GetValues<Feature>())
        {
            JsonElement entry = Book.GetProperty("features").GetProperty(feature.ToString());
            Assert.All(Languages, l => Assert.NotEmpty(entry.GetProperty("rise").GetProperty(l).GetString()! + entry.GetProperty("fall").GetProperty(l).GetString()!));
        }
    }

    [Fact]
    public void A_figure_of_a_feature_keeps_its_per_cent_sign_and_what_grew_many_times_is_told_in_times()
    {
        string[] shares = ["feature.ratio.more", "feature.ratio.less", "feature.share", "feature.jump", "feature.closing"];
        Assert.All(shares, key => Assert.All(Languages, l => Assert.Contains("{amount}\u00A0%", Book.GetProperty("words").GetProperty(key).GetProperty(l).GetString(), StringComparison.Ordinal)));
        Assert.All(Languages, l => Assert.Contains("{ratio}", Book.GetProperty("times").GetProperty(l).GetString(), StringComparison.Ordinal));
        Assert.InRange(Book.GetProperty("mostPerCent").GetDouble(), 1, 10);
    }

    [Fact]
    public void Every_state_of_ram_and_link_has_its_headline()
    {
        IEnumerable<string> states = Enum.GetNames<Standing>().Concat(Enum.GetNames<LiveState>()).Where(n => n != nameof(LiveState.Beating)).Concat(Enum.GetNames<LinkState>().Where(n => n != nameof(LinkState.Streaming)));
        Assert.All(states, state =>
        {
            string key = JsonNamingPolicy.KebabCaseLower.ConvertName(state);
            Assert.Superset(new HashSet<string> { $"head.{key}", $"head.{key}.more" }, Keys);
        });
    }

    [Fact]
    public void Every_aim_step_reason_lack_and_problem_of_tuning_has_its_words()
    {
        string[] keys =
        [
            .. TuningAims.All.Select(a => "tune.aim." + a),
            .. Enum.GetNames<AdviceReason>().Select(r => "tune.reason." + Kebab(r)),
            .. Enum.GetNames<TrialLack>().Where(l => l != nameof(TrialLack.None)).Select(l => "tune.lack." + Kebab(l)),
            .. new[] { "safe", "turn", "settle", "record" }.Select(p => "tune.track." + p),
            .. new[]
            {
                "stale", "knob", "unit", "number", "negative", "upside-down", "step", "now-outside", "outside", "enough", "aim", "virtual", "not-beating",
                "it-runs", "no-file", "disk", "same-recording",
            }.Select(p => "tune.problem." + p),
            .. new[] { "link", "same-recording", "other-ram" }.Select(p => "tune.notice." + p),
            .. Enum.GetNames<RangeEnd>().Where(e => e != nameof(RangeEnd.None)).Select(e => "tune.end." + Kebab(e)),
        ];
        Assert.All(keys, k => Assert.Contains(k, Keys));
    }

    // What to do is named by the program, by the report's own rule.
    private static readonly string[] Named = ["todo", "check"];

    [Fact]
    public void Every_phrase_is_asked_for()
    {
        string code = string.Concat(Files.Where(f => !f.EndsWith(".json", StringComparison.Ordinal)).Select(f => System.Text.Encoding.UTF8.GetString(PageFiles.Find(f)!)));
        Assert.All(Keys, key => Assert.True(
            code.Contains($"\"{key}\"", StringComparison.Ordinal) || Stems(key).Any(stem => Named.Contains(stem) || code.Contains($"\"{stem}.\"", StringComparison.Ordinal) || code.Contains($"`{stem}.", StringComparison.Ordinal)),
            key));
    }

    [Fact]
    public void Every_phrase_that_the_page_asks_for_by_its_whole_name_is_there()
    {
        foreach (string file in Files)
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
        foreach (string file in Files)
        {
            string text = System.Text.Encoding.UTF8.GetString(PageFiles.Find(file)!);
            Assert.All(Address().Matches(text), a => Assert.Equal("http://www.w3.org/2000/svg", a.Value));
        }
    }

    private static string Kebab(string name) => JsonNamingPolicy.KebabCaseLower.ConvertName(name);

    // "a.b.c" may be asked for as "a.b." + c, or "a." + bc.
    private static IEnumerable<string> Stems(string key)
    {
        for (int dot = key.LastIndexOf('.'); dot > 0; dot = key.LastIndexOf('.', dot - 1))
        {
            yield return key[..dot];
        }
    }

    [GeneratedRegex(@"say\(""([\w.\-]+[\w])""")]
    private static partial Regex Asked();

    [GeneratedRegex(@"data-wl?=""([\w.\-]+)""")]
    private static partial Regex InPage();

    [GeneratedRegex(@"(https?:)?//[\w.]+\.\w+[\w./]*")]
    private static partial Regex Address();
}
