using System.Text.Json;
using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Physics;
using Clackbeat.Twin.Changes;
using Clackbeat.Twin.Model;
using Clackbeat.Words;

namespace Clackbeat.Report.Twins;

/// <summary>Decides what the page of a tried change holds.</summary>
internal sealed class WhatIfComposer(WhatIfStory story)
{
    private const double LitresPerMinute = 6e4;
    private const double BarPerPascal = 1e-5;
    private const double SureOfBeating = 0.9;

    /// <summary>The page.</summary>
    public ReportContent Make()
    {
        IReadOnlyList<Drawing> pictures = Pictures();
        int over = story.Axis is null ? 0 : pictures.Count - 2;
        List<Section> sections = [];
        if (over > 0)
        {
            sections.Add(new Section("over", Phrases.Say("tried.pictures"), [.. pictures.Take(over).Select(p => new PictureBlock(p))]));
        }

        sections.Add(story.Axis is null
            ? new Section("figures", Phrases.Say("tried.figures"), [Before()])
            : new Section("settings", Phrases.Say("tried.settings"), [Settings()]));
        sections.Add(new Section("beat", Phrases.Say("tried.beat"), [.. pictures.Skip(over).Select(p => new PictureBlock(p))]));
        sections.Add(new Section("how", Phrases.Say("tried.how"), [new Bullets([.. story.Notes.Select(n => (Rich)n)]), Seen()]));
        string source = Phrases.Say("tried.source", ("file", story.Record), ("day", Dates.Day(DateOnly.FromDateTime(story.Made.DateTime))));
        return new ReportContent(story.Site.Name, source, Verdict(), sections) { Units = story.Site.Units, Kind = Phrases.Say("tried.kind") };
    }

    /// <summary>The pictures, the most telling first.</summary>
    public IReadOnlyList<Drawing> Pictures()
    {
        var all = new List<Drawing>();
        if (story.Axis is { } axis)
        {
            Add(all, axis, "delivered", Phrases.Say("tried.delivered-plot"), Phrases.Say("tried.delivered-axis"), LitresPerMinute, p => p.DeliveredM3PerS);
            Add(all, axis, "swing", Phrases.Say("tried.swing-plot"), Phrases.Say("tried.swing-axis"), BarPerPascal, p => p.VesselSwingPa);
            Add(all, axis, "waste", Phrases.Say("tried.waste-plot"), Phrases.Say("tried.waste-axis"), LitresPerMinute, p => p.WasteM3PerS);
            Add(all, axis, "peak", Phrases.Say("tried.peak-plot"), Phrases.Say("tried.peak-axis"), BarPerPascal, p => p.PeakPa);
        }

        LaidBeats beats = Beats();
        all.Add(new Drawing(
            "beat-twin", Phrases.Say("tried.beat-plot"), Phrases.Say("tried.beat-alt"),
            beats.Foretold is null ? Phrases.Say("tried.beat-caption") : Phrases.Say("tried.beat-caption-change"), f => TwinBeatPlot.Draw(beats, f)));
        all.Add(new Drawing(
            "parting", Phrases.Say("tried.part-plot"), Phrases.Say("tried.part-alt", ("most", Digits.Significant(TwinBeatPlot.Most(beats), 2))),
            Phrases.Say("tried.part-caption"), f => TwinBeatPlot.DrawParting(beats, f))
        {
            Height = 0.7,
        });
        return all;
    }

    private void Add(List<Drawing> all, SettingAxis axis, string id, string title, string label, double unit, Func<Prediction, Figure?> figure)
    {
        if (story.Tried.Count(t => figure(t.Ram) is not null) < 2)
        {
            return;
        }

        string values = string.Join("; ", story.Tried.Where(t => figure(t.Ram) is not null)
            .Select(t => $"{t.Setting}: {Digits.Significant(unit * figure(t.Ram)!.Value.Value, 3)}"));
        all.Add(new Drawing(
            id, title, Phrases.Say("tried.plot-alt", ("figure", label), ("values", values)), Phrases.Say("tried.plot-caption"),
            f => SettingPlot.Draw(label, axis, figure(story.AsIs), unit, story.Tried, t => figure(t.Ram), f))
        {
            Height = 0.8,
            PaperHeight = 0.7,
        });
    }

    private LaidBeats Beats()
    {
        double bar = BarPerPascal * SiteHydraulics.Of(story.Site).PressurePa(1);
        HeadCurve? foretold = story.Axis is null && story.Tried[0].Ram.Beat is { } cycle ? story.Twin.Laid(cycle) : null;
        return new LaidBeats(story.Twin.Measured.Head, story.Twin.Laid(story.Beat), foretold, bar);
    }

    private Verdict Verdict()
    {
        if (story.Axis is null)
        {
            Prediction then = story.Tried[0].Ram;
            (Tone tone, string head) = then switch
            {
                { RatePerMin: null } => (Tone.Stop, Phrases.Say("tried.head-stops")),
                { WillBeat: < SureOfBeating } => (Tone.Look, Phrases.Say("tried.head-doubt")),
                _ => (Tone.Plain, Phrases.Say("tried.head-beats")),
            };
            return new Verdict(tone, Phrases.Say("tried.label-one"), head, [.. Sentences(then, "tried.delivered-then")]);
        }

        TriedChange? best = story.Tried.Where(t => t.Ram is { DeliveredM3PerS: not null, WillBeat: >= SureOfBeating })
            .MaxBy(t => t.Ram.DeliveredM3PerS!.Value.Value);
        return best is null
            ? new Verdict(Tone.Look, Phrases.Say("tried.label-range"), Phrases.Say("tried.head-none"), [])
            : IsLevel(best)
            ? new Verdict(Tone.Plain, Phrases.Say("tried.label-range"), Phrases.Say("tried.head-level"), [Phrases.Say("tried.no-difference")])
            : new Verdict(
                Tone.Plain, Phrases.Say("tried.label-range"), Phrases.Say("tried.head-range", ("setting", best.Setting)),
                [.. Sentences(best.Ram, "tried.delivered-best")]);
    }

    // What all settings have in common of their ± cancels, so this is on the safe side.
    private bool IsLevel(TriedChange best) => story.Tried.All(t =>
        t.Ram.DeliveredM3PerS is { } q && best.Ram.DeliveredM3PerS!.Value.Value - q.Value < best.Ram.DeliveredM3PerS.Value.U);

    private IEnumerable<Rich> Sentences(Prediction then, string delivered)
    {
        if (story.AsIs.DeliveredM3PerS is { } q && then.DeliveredM3PerS is { } changed)
        {
            yield return Rich.Say(delivered, ("now", Cell(Show.Of(Kind.Flow, q))), ("then", Cell(Show.Of(Kind.Flow, changed))));
            // What both have in common of their ± cancels, so this is on the safe side.
            if (Math.Abs(changed.Value - q.Value) < changed.U)
            {
                yield return Phrases.Say("tried.no-difference");
            }
        }

        if (story.AsIs.PeakPa is { } peak && then.PeakPa is { } peakThen)
        {
            yield return Rich.Say("tried.peak-then", ("now", Cell(Show.Of(Kind.Pressure, peak))), ("then", Cell(Show.Of(Kind.Pressure, peakThen))));
        }
    }

    private Table Before()
    {
        (Prediction now, TriedChange then) = (story.AsIs, story.Tried[0]);
        TableRow Row(string name, Kind kind, Func<Prediction, Figure?> figure) =>
            new(name, Rich.Empty, [Cell(Show.Of(kind, figure(now))), Cell(Show.Of(kind, figure(then.Ram)))]);
        TableRow[] swing = then.Ram.VesselSwingPa is null ? [] : [Row(Phrases.Say("whatif.swing"), Kind.Pressure, p => p.VesselSwingPa)];
        return new Table(
            Phrases.Say("tried.table"), ["", Phrases.Say("whatif.as-it-is"), Phrases.Say("whatif.changed")],
            [
                new TableGroup(null,
                [
                    Row(Phrases.Say("trend.rate"), Kind.Rate, p => p.RatePerMin),
                    Row(Phrases.Say("trend.delivered"), Kind.Flow, p => p.DeliveredM3PerS),
                    Row(Phrases.Say("trend.waste"), Kind.Flow, p => p.WasteM3PerS),
                    Row(Phrases.Say("trend.peak"), Kind.Pressure, p => p.PeakPa),
                    .. swing,
                    Row(Phrases.Say("trend.efficiency"), Kind.Share, p => p.Efficiency),
                    new TableRow(Phrases.Say("whatif.beats-on"), Rich.Empty, [PredictionWords.Odds(now), PredictionWords.Odds(then.Ram)]),
                    new TableRow(Phrases.Say("whatif.pipe"), Rich.Empty, [PredictionWords.Pipe(story.PipeAsIs), PredictionWords.Pipe(then.Pipe)]),
                ]),
            ]);
    }

    private Table Settings()
    {
        // More or less air hardly changes what runs to waste, but by far how the vessel swings.
        bool isOfAir = story.Tried.Any(t => t.Ram.VesselSwingPa is not null);
        TableRow Row(string name, Prediction p) => new(name, Rich.Empty,
        [
            Cell(Show.Of(Kind.Rate, p.RatePerMin)), Cell(Show.Of(Kind.Flow, p.DeliveredM3PerS)),
            isOfAir ? Cell(Show.Of(Kind.Pressure, p.VesselSwingPa)) : Cell(Show.Of(Kind.Flow, p.WasteM3PerS)),
            Cell(Show.Of(Kind.Pressure, p.PeakPa)), PredictionWords.Odds(p),
        ]);
        return new Table(
            Phrases.Say("tried.table"),
            [
                Phrases.Say("whatif.setting"), Phrases.Say("trend.rate"), Phrases.Say("trend.delivered"), Phrases.Say(isOfAir ? "whatif.swing" : "trend.waste"),
                Phrases.Say("trend.peak"),
                Phrases.Say("whatif.beats-on"),
            ],
            [new TableGroup(null, [Row(Phrases.Say("whatif.as-it-is"), story.AsIs), .. story.Tried.Select(t => Row(t.Setting, t.Ram))])]);
    }

    private Table Seen() => new(
        Phrases.Say("tried.seen-table"), [Phrases.Say("tried.seen-head"), Phrases.Say("tried.seen-value"), Phrases.Say("tried.seen-told")],
        [new TableGroup(null, [.. Enum.GetValues<TwinParameter>().Select(Row)])]);

    private TableRow Row(TwinParameter parameter)
    {
        double value = story.Twin.Values[(int)parameter];
        Rich found = parameter == TwinParameter.GapShare
            ? $"{Digits.Fixed(100 / (1 + Math.Exp(-value)), 0)} %"
            : Phrases.Say("tried.of-start", ("value", Digits.Significant(Math.Exp(value), 3)));
        string name = Phrases.Say($"twin.{JsonNamingPolicy.KebabCaseLower.ConvertName(parameter.ToString())}");
        return new TableRow(name, Rich.Empty, [found, Phrases.Say("tried.share-of-all", ("percent", Digits.Fixed(100 * story.Twin.Seen(parameter), 0)))]);
    }

    private static Rich Cell(Measure? measure) => measure is { } m ? m : Phrases.Say("sheet.not-known");
}
