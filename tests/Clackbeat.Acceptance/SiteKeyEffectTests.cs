using System.Collections.Concurrent;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using Clackbeat.Commands.Analyse;
using Clackbeat.Commands.Describe;
using Clackbeat.Frame;
using Clackbeat.Report.Export;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site;
using Clackbeat.Site.Check;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Acceptance;

/// <summary>
/// A key that is read and never used promises what is not kept. Each key of site-keys.toml is changed, and something that a keeper gets
/// must change with it: the check of the site file, the virtual ram, the signal path, or the analysis of a record.
/// </summary>
public sealed partial class SiteKeyEffectTests
{
    private const string Sections = "drive_pipe.section";

    // Its value is the name of a file; CalibratedRecordingTests hold it to its effect.
    private static readonly string[] ElsewhereTested = ["sensor.calibration"];

    private static readonly JsonSerializerOptions Plain = new() { NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    // Some keys count only where others are left out, or stand otherwise.
    private static readonly (string[] Without, (string Key, string Value)[] With)[] Grounds =
    [
        (["calibration", "setup"], []),
        (["calibration"], []),
        (["calibration", "setup", "bore", "wall", "outside_diameter", "pressure_rating", "wave_speed"], []),
        (["calibration", "setup", "wall", "wave_speed", "pressure_rating"], []),
        (["calibration", "outside_diameter", "size", "class"], []),
        (["calibration", "wall", "wave_speed", "pressure_rating", "size", "class"], []),
        (["calibration", "setup", "gain_uncertainty", "offset_uncertainty"], []),
        (["calibration", "setup"], [("tap_line_length", "\"0.5 m\""), ("material", "\"PVC-U\""), ("delivered", "1.0")]),
        (["calibration", "setup"], [("output", "\"4 mA to 20 mA\"")]),
    ];

    private static readonly Lazy<(double[] TimesS, double[] PressuresPa)> Record = new(() =>
    {
        // A ram whose flow can be told: with a flap or a snifter it is withheld, and keys that weigh on it seem without effect.
        string[] unusual = ["kind", "count", "snifter_bore", "stand_pipe_bore", "feed_length", "feed_bore", "other_rams"];
        RamDesign design = RamDesigner.Design(
            SiteFile.Parse(Text(([.. Grounds[0].Without, .. unusual], []), false, null, ""), "ram.toml"), RamCharacter.Smooth, PipeDetail.Elastic);
        // Twelve seconds hold enough beats for each key to show what it changes; a longer record would sharpen figures that nothing is asked of.
        var samples = new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { Seed = 3 }).Samples(12).ToList();
        return ([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
    });

    // What a file gives as it stands is the same for every key that is changed in it.
    private static readonly ConcurrentDictionary<string, (RamSite Site, string Told, Lazy<string> Analysed)?> Unchanged = new();

    public static TheoryData<string> Keys =>
        [.. SiteSchema.Keys.Select(k => $"{k.Table}.{k.Key}").Where(k => !ElsewhereTested.Contains(k))];

    [Theory]
    [MemberData(nameof(Keys))]
    public void Changing_a_key_changes_something_that_a_keeper_gets(string name)
    {
        SiteKey key = SiteSchema.Keys.Single(k => $"{k.Table}.{k.Key}" == name);
        Assert.True(HasEffect(key), $"[{key.Table}] {key.Key} can be changed at will, and nothing changes with it.");
    }

    private static bool HasEffect(SiteKey key) => Grounds.Any(ground =>
    {
        bool inSections = key.Table == Sections;
        (RamSite Site, string Told, Lazy<string> Analysed)? before = Unchanged.GetOrAdd(Text(ground, inSections, null, ""), text =>
            Quick(text) is { } was ? (was.Site, was.Told, new Lazy<string>(() => Analysed(was.Site))) : null);
        return before is { } was && Others(key, was.Site).Any(value =>
            Quick(Text(ground, inSections, key, value)) is { } now && (now.Told != was.Told || Analysed(now.Site) != was.Analysed.Value));
    });

    // What follows from the site file alone; null where it can't stand.
    private static (RamSite Site, string Told)? Quick(string text)
    {
        var check = SiteCheck.Of(SiteFile.ReadText(text, "ram.toml"));
        if (check.Problems.Count > 0 || check.Site is not { } site)
        {
            return null;
        }

        var page = new StringWriter(CultureInfo.InvariantCulture);
        SiteCheckText.Write(Session.OnStreams(page, TextWriter.Null, CancellationToken.None), check);
        object[] others = [SiteSensing.PathOf(site), SiteSensing.KnowledgeOf(site, true), VirtualRamOf(site), SiteLoad.Of(site).Fittings];
        return (site, page + SiteCheckJson.Of("ram.toml", check).ToJsonString() + string.Concat(others.Select(Written)));
    }

    private static string Written(object value) => JsonSerializer.Serialize(value, Plain);

    private static string VirtualRamOf(RamSite site)
    {
        try
        {
            RamDesign design = RamDesigner.Design(site);
            return Written(design.Ram) + Written(design.Sensor);
        }
        catch (InputException refusal)
        {
            return refusal.Message;
        }
    }

    private static string Analysed(RamSite site)
    {
        var analyser = new RamAnalyser(site);
        analyser.Add(Record.Value.TimesS, Record.Value.PressuresPa);
        RamAnalysis analysis = analyser.Finish("record");
        var page = new StringWriter(CultureInfo.InvariantCulture);
        AnalysisText.WriteAll(Session.OnStreams(page, TextWriter.Null, CancellationToken.None), site, analysis, null);
        return page + AnalysisJson.ToText(analysis) + Written(analysis.Flow) + Written(analysis.Pressure)
            + Written(analysis.Pipe);
    }

    /// <summary>Other values of a key, near ones first.</summary>
    private static IEnumerable<string> Others(SiteKey key, RamSite site) => key switch
    {
        { Key: "setup" } => [$"\"{FlowScale.SetupOf(site)}\""],
        { Key: "size" } => ["\"DN 40\"", "\"DN 80\""],
        { Key: "class" } => ["\"Schedule 80\"", "\"Schedule 10\""],
        { Kind: ValueKind.Text } => ["\"something else\""],
        { Kind: ValueKind.Date } => ["2024-02-03"],
        { Kind: ValueKind.Flag } => ["false", "true"],
        { Kind: ValueKind.Material } => ["\"PE100\"", "\"copper\""],
        { Kind: ValueKind.Choice } => key.Choices.Select(c => $"\"{c}\""),
        { Kind: ValueKind.Number or ValueKind.Integer } => Scaled(key.Metric),
        _ => Scaled(key.Metric).Select(v => $"\"{v}\""),
    };

    // The last number of the text, times some factors.
    private static IEnumerable<string> Scaled(string text)
    {
        Match number = Number().Matches(text)[^1];
        return new[] { 0.9, 1.1, 0.5, 2, 0.02, 50 }.Select(by =>
            text[..number.Index] + (decimal.Parse(number.Value, CultureInfo.InvariantCulture) * (decimal)by).ToString("0.######", CultureInfo.InvariantCulture)
            + text[(number.Index + number.Length)..]);
    }

    /// <summary>The template with every key in use, but for those left out and the one changed.</summary>
    private static string Text((string[] Without, (string Key, string Value)[] With) ground, bool inSections, SiteKey? changed, string value)
    {
        // Sections stand in place of the single pipe's keys, so a file has the ones or the others.
        string template = SiteTemplate.Text(Units.Metric);
        template = inSections ? template : SectionBlock().Replace(template, "");
        string[] ofSections = inSections ? [.. SiteSchema.KeysOf(Sections).Select(k => k.Key)] : [];
        var text = new List<string>();
        string table = "";
        foreach (string line in Hidden().Replace(template, "${line}").Split('\n'))
        {
            table = line.StartsWith('[') ? line.Trim('[', ']', ' ') : table;
            string key = line.Split(" = ")[0];
            bool isKey = !line.StartsWith('#') && line.Contains(" = ", StringComparison.Ordinal);
            if (isKey && changed is not null && table == changed.Table && key == changed.Key)
            {
                text.Add($"{key} = {value}");
            }
            else if (!isKey || !(ground.Without.Contains(key) || (table == "drive_pipe" && ofSections.Contains(key))))
            {
                string? instead = isKey ? ground.With.FirstOrDefault(w => w.Key == key).Value : null;
                text.Add(instead is null ? line : $"{key} = {instead}");
            }
        }

        return string.Join('\n', text);
    }

    [GeneratedRegex(@"-?\d+(\.\d+)?")]
    private static partial Regex Number();

    [GeneratedRegex(@"^# \[\[drive_pipe\.section\]\]$.*?(?=^\[)", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex SectionBlock();

    [GeneratedRegex(@"^# (?<line>[a-z_]+ = .*|\[\[?[a-z_.]+\]\]?)$", RegexOptions.Multiline)]
    private static partial Regex Hidden();
}
