using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Guides;

/// <summary>The field guide: how each fault looks in the beat, what to check, how to repair it, and what a fresh record should show.</summary>
internal sealed class FaultGuide(FaultPortraits portraits, Units units)
{
    // The picture of a stop, or of a fault that leaves no typical beat, shows the record itself.
    private static readonly string[] Stops = [Conditions.StoppedShut, Conditions.StoppedOpen];

    public ReportContent Make() => new(
        Phrases.Say("guide.faults-title"),
        $"{Shown().In(units)} {Phrases.Say("guide.faults-how")}",
        new Verdict(Tone.Stop, ReportWords.BeforeYouOpen, Before[0], Before[1..]),
        [
            new Section("where", Phrases.Say("guide.where-title"), [Where()]),
            .. portraits.Faults.Select(Fault),
            new Section("stops", Phrases.Say("guide.stops-title"), [AtAGlance()]),
        ])
    {
        Kind = Phrases.Say("guide.faults-kind"),
        Units = units,
    };

    private static Rich[] Before =>
    [
        Phrases.Say("guide.before-gate"),
        Phrases.Say("guide.before-drain"),
        Phrases.Say("guide.before-vessel"),
        Phrases.Say("guide.before-hands"),
        Phrases.Say("guide.before-maker"),
    ];

    private Rich Shown() => portraits.IsKeepers
        ? Rich.Say("guide.faults-own", ("site", portraits.Site.Name))
        : Rich.Say("guide.faults-invented", ("length", Length(portraits.Site.DrivePipe.AtRam.LengthM)), ("supply", Length(portraits.Site.Supply.HeadM)), ("lift", Length(portraits.Site.Delivery.HeadM)));

    private static Rich Length(double lengthM) => Show.Of(Kind.Length, lengthM, 4)?.Trimmed() is { } length ? length : ReportWords.NotGiven;

    private Table Where() => new(
        Phrases.Say("guide.where-title"),
        [Phrases.Say("guide.where-see"), Phrases.Say("guide.where-look"), Phrases.Say("guide.where-then")],
        [
            new TableGroup(null, [.. portraits.Faults.Select(f => new TableRow(
                ReportWords.Capital(Phrases.Say($"guide-see.{f.Condition}")), Rich.Empty, [Phrases.Say($"guide-look.{f.Condition}"), Phrases.Say($"guide-then.{f.Condition}")]))]),
        ])
    {
        IsText = true,
    };

    private Section Fault((string Condition, RamAnalysis Record) fault)
    {
        string code = fault.Condition;
        Finding? found = fault.Record.Diagnosis.FirstOrDefault(f => f.Condition == code);
        var blocks = new List<Block>
        {
            new Terms([(Phrases.Say("guide.where-see"), Phrases.Say($"guide-see.{code}"))]),
            new PictureBlock(Picture(code, fault.Record, found)),
            new Callout(Tone.Plain, Phrases.Say("report.what-in-the-beat-says-so"), found is null
                ? [Phrases.Say("guide.not-shown")]
                : [.. Catalogue.Current.Say(found.Evidence).Select(e => (Rich)e)]),
        };
        foreach ((string part, string text) in Catalogue.Current.AdviceParts(code))
        {
            blocks.Add(part == "caution"
                ? new Callout(Tone.Stop, Label(part), [text])
                : new Terms([(Label(part), text)]));
        }

        return new Section(code, ReportWords.Capital(ReportWords.Condition(code)), blocks);
    }

    private static string Label(string part) => part switch
    {
        "why" => Phrases.Say("guide.part-why"),
        "check" => Phrases.Say("guide.part-check"),
        "caution" => Phrases.Say("guide.part-caution"),
        "repair" => Phrases.Say("guide.part-repair"),
        "start" => Phrases.Say("guide.part-start"),
        "after" => Phrases.Say("guide.part-after"),
        _ => Phrases.Say("guide.part-beware"),
    };

    private Drawing Picture(string code, RamAnalysis ill, Finding? found)
    {
        IReadOnlyList<BeatPart> parts = found?.Parts is { Count: > 0 } told ? told : [ConditionTraits.Of(code).Where];
        bool hasBeat = !Stops.Contains(code) && SignaturePlot.CanDraw(ill.Signature, parts);
        string title = hasBeat ? Phrases.Say("guide.beat-title") : Phrases.Say("guide.stop-picture");
        string alt = $"{ReportWords.Capital(ReportWords.Condition(code))}. {title}. {string.Join(' ', Catalogue.Current.Say(found?.Evidence ?? []))}";
        return new Drawing(code, title, alt, Rich.Empty, frame => hasBeat
            ? SignaturePlot.Draw(ill.Signature!, portraits.Well.Signature, parts, frame)
            : StopPlot.Draw(ill, frame))
        {
            Height = 0.8,
        };
    }

    private static Table AtAGlance() => new(
        Phrases.Say("guide.stops-title"),
        [Phrases.Say("guide.stops-body"), Phrases.Say("guide.stops-water"), Phrases.Say("guide.stops-means")],
        [
            new TableGroup(null,
            [
                Row(Phrases.Say("guide.stops-full"), Phrases.Say("guide.stops-dry"), Phrases.Say("guide.stops-shut")),
                Row(Phrases.Say("guide.stops-under"), Phrases.Say("guide.stops-runs"), Phrases.Say("guide.stops-open")),
                Row(Phrases.Say("guide.stops-nothing"), Phrases.Say("guide.stops-dry"), Phrases.Say("guide.stops-no-water")),
                Row(Phrases.Say("guide.stops-frozen"), Phrases.Say("guide.stops-runs-or-beats"), Phrases.Say("guide.stops-sensor")),
            ]),
        ])
    {
        IsText = true,
    };

    private static TableRow Row(string body, string water, string means) => new(ReportWords.Capital(body), Rich.Empty, [water, means]);
}
