using System.Globalization;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Words;

namespace Clackbeat.Report.TuningSheets;

/// <summary>Decides what the sheet of a tuning session holds.</summary>
internal sealed class TuningComposer
{
    private const double LitresPerMinute = 6e4;
    private const double PascalsPerBar = 1e5;

    // A limit further off than this would press the curve flat; the verdict names it.
    private const double Near = 2.5;

    private readonly TuningSession _session;
    private readonly Units _units;
    private readonly DateTimeOffset _made;
    private readonly Advice _advice;
    private readonly IReadOnlyList<TrialPair> _pairs;

    public TuningComposer(TuningSession session, Units units, DateTimeOffset made)
    {
        (_session, _units, _made) = (session, units, made);
        _advice = NextSetting.Of(session);
        _pairs = TrialDifferences.Of(session);
    }

    public ReportContent Make()
    {
        List<Section> sections = [new Section("trials", Phrases.Say("sheet.trials"), [Trials()])];
        if (_session.Working.Any())
        {
            sections.Insert(0, new Section("pictures", Phrases.Say("sheet.what-setting-does"), [.. Pictures()]));
            sections.Add(new Section("differ", Phrases.Say("sheet.trials-really-differ"), [.. Differences()]));
        }

        sections.Add(new Section("safety", Phrases.Say("sheet.before-you-turn-anything"), [Safety()]));
        string source = Phrases.Say("sheet.tuned-made", ("aim", _session.Aim.Meaning()), ("day", Dates.Day(DateOnly.FromDateTime(_made.DateTime))));
        return new ReportContent(_session.Ram, source, Verdict(), sections) { Units = _units, Kind = Phrases.Say("sheet.tuning-sheet") };
    }

    private Verdict Verdict()
    {
        Rich next = _advice.Setting is { } setting
            ? Phrases.Say("sheet.finished-try-next", ("setting", _session.Knob.Text(setting)), ("why", _advice.Why))
            : _advice.Why;
        if (_advice.Best is not { } best)
        {
            return new Verdict(Tone.Look, Phrases.Say("sheet.no-setting-recommend"), Phrases.Say("sheet.no-trial-far-may-kept"), [next]);
        }

        return new Verdict(
            best.Verdict == PipeVerdict.Over ? Tone.Look : Tone.Well,
            _advice.Setting is null ? Phrases.Say("sheet.leave-here") : Phrases.Say("sheet.best-far"),
            Rich.Say("sheet.delivered", ("knob", ReportWords.Capital(_session.Knob.Name)), ("setting", _session.Knob.Text(best.Setting)), ("delivered", Cell(Show.Of(Kind.Flow, best.DeliveredM3PerS)))),
            [Against(best), .. Choice(best), Pipe(best), next]);
    }

    private Rich Against(Trial best)
    {
        int first = _session.Trials.ToList().FindIndex(t => t.Works);
        int at = _session.Trials.ToList().IndexOf(best);
        if (first == at)
        {
            return _advice.WastesLess
                ? Phrases.Say("sheet.how-ram-found")
                : Phrases.Say("sheet.how-ram-found-no-other");
        }

        double share = 100 * (Math.Exp(_session.Score(best) - _session.Score(_session.Trials[first])) - 1);
        bool differ = _pairs.Any(p => p.First == Math.Min(first, at) && p.Second == Math.Max(first, at) && p.Differ);
        string better = Digits.Fixed(Math.Abs(share), Math.Abs(share) < 9.95 ? 1 : 0);
        string what = _session.Aim switch
        {
            TuningAim.MostDelivered => Phrases.Say("sheet.more-water"),
            TuningAim.LeastWasted => Phrases.Say("sheet.more-water-put-use"),
            _ => Phrases.Say("sheet.less-peak"),
        };
        return differ
            ? Phrases.Say("sheet.against-first-trial", ("percent", better), ("what", (share >= 0 ? what : Opposite)))
            : Phrases.Say("sheet.against-first-trial-little-may", ("percent", better), ("what", (share >= 0 ? what : Opposite)));
    }

    // What a keeper should know of the choice: its likes, and whether it lies at an end of the range.
    private IEnumerable<Rich> Choice(Trial best)
    {
        List<Trial> trials = [.. _session.Trials];
        if (_advice.Alike.Count > 0)
        {
            string others = string.Join(", ", _advice.Alike.Select(t => (trials.IndexOf(t) + 1).ToString(CultureInfo.InvariantCulture)));
            yield return Phrases.Say("sheet.shows-no-clear-difference-trial", ("count", _advice.Alike.Count), ("others", others))
                + (_advice.WastesLess ? Phrases.Say("sheet.these-wastes-least") : ".");
        }

        if (_advice.BestAtEnd != RangeEnd.None)
        {
            yield return _advice.BestAtEnd == RangeEnd.Highest ? Phrases.Say("sheet.highest-of-range") : Phrases.Say("sheet.lowest-of-range");
        }
    }

    private string Opposite => _session.Aim switch
    {
        TuningAim.MostDelivered => Phrases.Say("sheet.less-water"),
        TuningAim.LeastWasted => Phrases.Say("sheet.less-water-put-use"),
        _ => Phrases.Say("sheet.more-peak"),
    };

    private static Rich Pipe(Trial trial) => trial.AllowablePa is { } allowed && trial.PeakPa is { } peak
        ? Rich.Say("sheet.peak-may-recur", ("peak", Cell(Show.Of(Kind.Pressure, peak))), ("allowed", Cell(Show.Of(Kind.Pressure, allowed))), ("fatigue", Fatigue(trial)))
        : Rich.Say("sheet.peak-pipes-limit-isnt-known", ("peak", Cell(Show.Of(Kind.Pressure, trial.PeakPa))));

    private static string Fatigue(Trial trial) => trial.Verdict == PipeVerdict.Over && trial.WithinRating
        ? Phrases.Say("sheet.fatigue-cracks-pipe-before-design")
        : "";

    private Table Trials() => new(
        Phrases.Say("sheet.order-they-made-holds-truth"),
        [Phrases.Say("sheet.trial"), Phrases.Say("sheet.setting"), Phrases.Say("sheet.delivered-2"), Phrases.Say("sheet.wasted"), Phrases.Say("sheet.efficiency"), Phrases.Say("sheet.peak"), Phrases.Say("sheet.beats")],
        [new TableGroup(null, [.. _session.Trials.Select((t, i) => Row(t, i))])]);

    private TableRow Row(Trial trial, int index)
    {
        string name = $"{index + 1}";
        Rich setting = _session.Knob.Text(trial.Setting);
        if (!trial.Works)
        {
            return new TableRow(name, ReportWords.Capital(trial.Why), [setting, Phrases.Say("sheet.none"), "", "", "", ""]);
        }

        Rich meaning = trial == _advice.Best ? Phrases.Say("sheet.best-far-2") : trial.WithinRating ? Rich.Empty : Phrases.Say("sheet.over-pipes-limit");
        return new TableRow(name, meaning,
        [
            setting, Cell(Show.Of(Kind.Flow, trial.DeliveredM3PerS)), Cell(Show.Of(Kind.Flow, trial.WasteM3PerS)),
            Cell(Show.Of(Kind.Share, trial.Efficiency)), Cell(Show.Of(Kind.Pressure, trial.PeakPa)), Cell(Show.Of(Kind.Rate, trial.RatePerMin)),
        ]);
    }

    private static Rich Cell(Measure? measure) => measure is { } m ? m : Phrases.Say("sheet.not-known");

    private IEnumerable<Block> Pictures()
    {
        Knob knob = _session.Knob;
        string along = knob.Unit.Length > 0 ? $"{ReportWords.Capital(knob.Name)} ({knob.Unit})" : ReportWords.Capital(knob.Name);
        bool share = _session.Aim == TuningAim.LeastWasted;
        yield return share
            ? Picture("efficiency", Phrases.Say("sheet.efficiency-over-setting"), Phrases.Say("sheet.efficiency-2"), along, t => 100 * t.Efficiency!.Value.Value, s => 100 * s.Efficiency,
                r => r.Efficiency, null)
            : Picture("delivered", Phrases.Say("sheet.delivered-water-over-setting"), Phrases.Say("sheet.delivered-lmin"), along, t => LitresPerMinute * t.DeliveredM3PerS!.Value.Value, s => LitresPerMinute * s.DeliveredM3PerS,
                r => r.Delivered, null);
        double? allowed = _session.Working.Min(t => t.AllowablePa);
        yield return Picture(
            "peak", Phrases.Say("sheet.peak-over-setting"), Phrases.Say("sheet.peak-bar"), along, t => t.PeakPa!.Value.Value / PascalsPerBar, s => s.PeakPa / PascalsPerBar, r => r.Peak,
            allowed is { } pa && pa < Near * _session.Working.Max(t => t.PeakPa!.Value.Value) ? (pa / PascalsPerBar, Phrases.Say("sheet.may-recur")) : null);
    }

    private PictureBlock Picture(
        string id, string title, string label, string along, Func<Trial, double> whole, Func<Stretch, double> part, Func<LogRatios, double> told,
        (double, string)? limit)
    {
        PlottedTrial[] trials = [.. _session.Trials.Select((t, i) => (Trial: t, Number: i + 1)).Where(t => t.Trial.Works)
            .Select(t => new PlottedTrial(t.Trial.Setting, whole(t.Trial), t.Number, t.Trial == _advice.Best))];
        IReadOnlyList<CurvePoint> curve = TuningCurve.Of(_session, whole, part, told);
        string alt = Phrases.Say("sheet.each-trial", ("label", label)) + string.Join("; ", trials.Select(t =>
            $"{_session.Knob.Text(t.Setting)}: {Digits.Significant(t.Value, 3)}")) + ".";
        Rich caption = curve.Count > 0
            ? Phrases.Say("sheet.numbers-trials-band-holds-true")
            : Phrases.Say("sheet.numbers-trials");
        (double, double) range = (_session.Knob.Lowest, _session.Knob.Highest);
        return new PictureBlock(new Drawing(id, title, alt, caption, f => TrialsPlot.Draw(label, along, range, trials, curve, limit, f)) { Height = 0.8, PaperHeight = 0.6 });
    }

    private IEnumerable<Block> Differences()
    {
        if (_pairs.Count == 0)
        {
            yield return new Paragraph(Phrases.Say("sheet.too-little-recorded-tell-record"));
            yield break;
        }

        Rich[] told = [.. _pairs.Where(p => p.Differ).Select(p => (Rich)
            Phrases.Say("sheet.better-than", ("better", Better(p)), ("worse", Worse(p)), ("share", Digits.Fixed(100 * Math.Abs(p.Share), 1))))];
        yield return told.Length > 0
            ? new Bullets(told)
            : new Paragraph(Phrases.Say("sheet.no-two-trials-differ-more"));
        yield return new Paragraph(
            Phrases.Say("sheet.differences-arent-listed-may-chance"));
    }

    private static string Better(TrialPair pair) => Phrases.Say("sheet.trial-2", ("number", (pair.Share > 0 ? pair.Second : pair.First) + 1));

    private static string Worse(TrialPair pair) => Phrases.Say("sheet.trial-3", ("number", (pair.Share > 0 ? pair.First : pair.Second) + 1));

    private static Callout Safety() => new(
        Tone.Look, Phrases.Say("sheet.water-under-pressure"),
        [
            Phrases.Say("sheet.shut-gate-valve-drive-pipe"),
            Phrases.Say("sheet.sheet-no-judgement-your-pipe"),
        ]);
}
