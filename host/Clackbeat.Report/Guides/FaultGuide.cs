using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Facts;
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
            .. portraits.Further.Select(f => Further(f.Cause, f.Record)),
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
                ReportWords.Capital(Phrases.Say($"guide-see.{f.Condition}")), Rich.Empty, [Phrases.Say($"guide-look.{f.Condition}"), Phrases.Say($"guide-then.{f.Condition}")])),
                .. portraits.Further.Select(f => new TableRow(
                    ReportWords.Capital(Phrases.Say($"causes.{f.Cause.Code}.see")), Rich.Empty, [Phrases.Say($"causes.{f.Cause.Code}.look"), Phrases.Say($"causes.{f.Cause.Code}.then")]))]),
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

    /// <summary>A cause that no model names: what one tap can say of it, and what tells it.</summary>
    private Section Further(FurtherCause cause, RamAnalysis? record)
    {
        string Said(string part) => Phrases.Say($"causes.{cause.Code}.{part}");
        var blocks = new List<Block> { new Terms([(Phrases.Say("guide.where-see"), Said("see"))]) };
        string title = ReportWords.Capital(Said("name"));
        if (record is not null && SignaturePlot.CanDraw(record.Signature, [cause.Where]))
        {
            blocks.Add(new PictureBlock(Picture(cause, title, record)));
        }

        Fact[] signs = [.. record?.Findings.Where(BeatRemarks.IsOne) ?? []];
        if (signs.Length > 0)
        {
            blocks.Add(new Callout(Tone.Plain, Phrases.Say("report.what-in-the-beat-says-so"), [.. Catalogue.Current.Say(signs).Select(s => (Rich)s)]));
        }

        blocks.Add(new Terms([(Phrases.Say("guide.part-sure"), Said("sure"))]));
        blocks.Add(new Terms([(Label("check"), Said("check"))]));
        blocks.Add(new Callout(Tone.Stop, Label("caution"), [Phrases.Say($"page.caution.{cause.Caution}")]));
        blocks.Add(new Terms([(Label("repair"), Said("repair"))]));
        blocks.Add(new Terms([(Label("after"), Said("after"))]));
        return new Section("cause-" + cause.Code, title, blocks);
    }

    private Drawing Picture(FurtherCause cause, string title, RamAnalysis record)
    {
        bool isRhythm = cause.Where == BeatPart.Rhythm;
        string kind = isRhythm ? Phrases.Say("guide.rhythm-picture") : Phrases.Say("guide.beat-title");
        return new Drawing("cause-" + cause.Code, kind, $"{title}. {kind}.", Rich.Empty, frame => isRhythm
            ? BeatsPlot.Draw(record, portraits.Well, cause.Code == "two-rams", frame)
            : SignaturePlot.Draw(record.Signature!, portraits.Well.Signature, [cause.Where], frame))
        {
            Height = 0.8,
        };
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
