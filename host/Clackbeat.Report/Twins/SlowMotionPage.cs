using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using Clackbeat.Hydraulics.Water;
using Clackbeat.Report.Fonts;
using Clackbeat.Report.Html;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Inside;
using Clackbeat.Words;

namespace Clackbeat.Report.Twins;

/// <summary>The beat in slow motion as one HTML file that asks for nothing from outside. Everything that moves on it is computed by the twin.</summary>
public static class SlowMotionPage
{
    private const double FootM = 0.3048;
    private const double UsGallonM3 = 3.785411784e-3;
    private const double UsFluidOunceM3 = UsGallonM3 / 128;

    // Times slower than life.
    private static readonly int[] Paces = [5, 20, 100];

    // Only what could end the script element must be written otherwise; letters of all languages stay as they are.
    private static readonly JsonSerializerOptions Compact = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    private static readonly string[] Names =
    [
        "play", "pause", "time", "supply", "vesselHead", "vessel", "main", "waste", "pipe",
        "phase_knock", "phase_delivery", "phase_recoil", "phase_moving", "phase_open",
        "row_pressure", "row_velocity", "row_waste", "row_delivery", "row_opening", "row_lift", "row_vessel",
    ];

    private static readonly string Script = ReportFont.Text("slow-motion.js");

    /// <summary>What the page may do, as a content security policy: run the one script it holds, and ask for nothing.</summary>
    public static string Policy { get; } =
        $"default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(Script)))}'";

    /// <summary>Writes the page to a stream, which stays open.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="site">The site.</param>
    /// <param name="record">Name of the record.</param>
    /// <param name="beat">The beat.</param>
    /// <param name="fits">The twin beats as the record does.</param>
    public static void Write(Stream output, RamSite site, string record, InsideBeat beat, bool fits)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(beat);
        output.Write(Encoding.UTF8.GetBytes(Page(site, record, fits, Data(site, beat))));
    }

    private static string Page(RamSite site, string record, bool fits, JsonObject data) => Markup.Of(
        $"""
        <!DOCTYPE html>
        <html lang="{Catalogue.Current.Language.Code}">
        <head>
        <meta charset="utf-8">
        <meta name="viewport" content="width=device-width, initial-scale=1">
        <meta name="color-scheme" content="light dark">
        <meta name="referrer" content="no-referrer">
        <meta http-equiv="Content-Security-Policy" content="{Markup.Trusted(Policy)}">
        <title>{site.Name}: {Word("title")}</title>
        <style>{Markup.Trusted(ReportFont.Text("slow-motion.css"))}</style>
        </head>
        <body>
        <div class="page">
        <h1>{Word("title")}: <bdi>{site.Name}</bdi></h1>
        <p class="muted">{Phrases.Say("slow.source", ("file", record))}</p>
        {(fits ? Markup.Empty : Markup.Of($"<p>{Phrases.Say("whatif.weak-fit")}</p>"))}
        <div class="bar">
        <button class="go" id="go" type="button">{Word("play")}</button>
        <button id="back" type="button" aria-label="{Word("step-back")}">◂</button>
        <button id="on" type="button" aria-label="{Word("step-on")}">▸</button>
        <input id="at" type="range" min="0" step="1" value="0" aria-label="{Word("place")}">
        <label>{Word("pace")} <select id="pace">{Paces.Select(p => Markup.Of($"<option value=\"{Whole(p)}\"{Markup.Trusted(p == Paces[1] ? " selected" : "")}>{Phrases.Say("slow.times", ("times", p))}</option>"))}</select></label>
        </div>
        <p id="say" aria-live="polite"></p>
        <div class="stage">
        <section><h2>{Word("grade-title")}</h2><svg id="grade" role="img" aria-label="{Word("grade-alt")}"></svg>
        <h2>{Word("speed-title")}</h2><svg id="speed" role="img" aria-label="{Word("speed-alt")}"></svg></section>
        <section><h2>{Word("ram-title")}</h2><svg id="ram" role="img" aria-label="{Word("ram-alt")}"></svg><dl id="figures"></dl></section>
        </div>
        <h2>{Word("trace-title")}</h2><svg id="trace" role="img" aria-label="{Word("trace-alt")}"></svg>
        <p>{Word("legend")}</p>
        <h2>{Word("look-title")}</h2>
        <p>{Word("look-grade")}</p>
        <p>{Word("look-vessel")}</p>
        <p class="muted">{Word("keys")}</p>
        </div>
        <script type="application/json" id="data">{Markup.Trusted(data.ToJsonString(Compact))}</script>
        <script>{Markup.Trusted(Script)}</script>
        </body>
        </html>

        """).Text;

    private static JsonObject Data(RamSite site, InsideBeat beat)
    {
        bool us = site.Units == Units.Us;
        double headUnit = us ? 1 / FootM : 1;
        double pressureUnit = us ? 1 / Constants.PsiPa : 1e-5;
        double pressure = pressureUnit * SiteHydraulics.Of(site).PressurePa(1);
        IReadOnlyList<InsideFrame> frames = beat.Frames;
        var words = new JsonObject();
        foreach (string name in Names)
        {
            words[name] = Word(name.Replace('_', '-'));
        }

        // The script fills this one in.
        words["levelScale"] = Phrases.Say("slow.level-scale", ("volume", "{volume}"));
        words["headAxis"] = Phrases.Say("slow.head-axis", ("unit", us ? "ft" : "m"));
        words["along"] = Phrases.Say("slow.along", ("unit", us ? "ft" : "m"));
        words["velocityAxis"] = Phrases.Say("slow.velocity-axis", ("unit", us ? "ft/s" : "m/s"));
        words["pressureAxis"] = Phrases.Say("slow.pressure-axis", ("unit", us ? "psi" : "bar"));
        return new JsonObject
        {
            ["language"] = Catalogue.Current.Language.Code,
            ["frames"] = frames.Count,
            ["step"] = Math.Round(beat.StepS, 6),
            ["places"] = frames[0].HeadM.Count,
            ["length"] = Math.Round(beat.LengthM, 3),
            ["supply"] = Math.Round(beat.SupplyHeadM, 3),
            ["vessel"] = Math.Round(beat.VesselHeadM, 3),
            ["headUnit"] = headUnit,
            ["headFactor"] = headUnit / 100,
            ["pressureFactor"] = pressure / 100,
            ["pressurePerHead"] = pressure,
            ["pressureUnit"] = us ? "psi" : "bar",
            ["pressurePlaces"] = us ? 1 : 2,
            ["velocityFactor"] = headUnit / 1000,
            ["velocityUnit"] = us ? "ft/s" : "m/s",
            ["flowFactor"] = us ? 0.06 * 1e-3 / UsGallonM3 : 0.06,
            ["flowUnit"] = us ? "gpm" : "L/min",
            ["flowPlaces"] = us ? 1 : 0,
            ["volumeFactor"] = us ? 1e-6 / UsFluidOunceM3 : 1,
            ["volumeUnit"] = us ? "fl oz" : "mL",
            ["volumePlaces"] = us ? 1 : 0,
            ["main"] = Math.Round(1e6 * beat.MainM3PerS, 1),
            ["head"] = Row(frames.SelectMany(f => f.HeadM), 100),
            ["velocity"] = Row(frames.SelectMany(f => f.VelocityMPerS), 1000),
            ["measured"] = Row(beat.MeasuredM, 100),
            ["wasteOpening"] = Row(frames.Select(f => f.WasteOpening), 1000),
            ["deliveryOpening"] = Row(frames.Select(f => f.DeliveryOpening), 1000),
            ["waste"] = Row(frames.Select(f => f.WasteM3PerS), 1e6),
            ["delivery"] = Row(frames.Select(f => f.DeliveryM3PerS), 1e6),
            ["vesselMl"] = Row(frames.Select(f => f.VesselM3), 1e6),
            ["words"] = words,
        };
    }

    private static JsonArray Row(IEnumerable<double> values, double factor) => new([.. values.Select(v => (JsonNode)(int)Math.Round(factor * v))]);

    private static string Word(string name) => Phrases.Say($"slow.{Dashed(name)}");

    // Keys of the catalogue are dashed where the script's names change case.
    private static string Dashed(string name) =>
        string.Concat(name.Select(c => char.IsAsciiLetterUpper(c) ? "-" + char.ToLowerInvariant(c) : c.ToString()));

    private static string Whole(int number) => number.ToString(CultureInfo.InvariantCulture);
}
