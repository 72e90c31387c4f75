using System.Globalization;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;

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
        List<Section> sections = [new Section("trials", "The trials", [Trials()])];
        if (_session.Working.Any())
        {
            sections.Insert(0, new Section("pictures", "What the setting does", [.. Pictures()]));
            sections.Add(new Section("differ", "Which trials really differ", [.. Differences()]));
        }

        sections.Add(new Section("safety", "Before you turn anything", [Safety()]));
        string source = $"Tuned for {_session.Aim.Meaning()}. Made {_made.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}.";
        return new ReportContent(_session.Ram, source, Verdict(), sections) { Units = _units, Kind = "Tuning sheet" };
    }

    private Verdict Verdict()
    {
        Rich next = _advice.Setting is { } setting
            ? $"Not finished: try {_session.Knob.Text(setting)} next. {_advice.Why}"
            : _advice.Why;
        if (_advice.Best is not { } best)
        {
            return new Verdict(Tone.Look, "No setting to recommend", "No trial so far may be kept.", [next]);
        }

        return new Verdict(
            best.Verdict == PipeVerdict.Over ? Tone.Look : Tone.Well,
            _advice.Setting is null ? "Leave it here" : "Best so far",
            Rich.Of($"{Words.Capital(_session.Knob.Name)} {_session.Knob.Text(best.Setting)}: {Cell(Show.Of(Kind.Flow, best.DeliveredM3PerS))} delivered."),
            [Against(best), Pipe(best), next]);
    }

    private Rich Against(Trial best)
    {
        int first = _session.Trials.ToList().FindIndex(t => t.Works);
        int at = _session.Trials.ToList().IndexOf(best);
        if (first == at)
        {
            return "That is how the ram was found: no other setting did better.";
        }

        double share = 100 * (Math.Exp(_session.Score(best) - _session.Score(_session.Trials[first])) - 1);
        bool differ = _pairs.Any(p => p.First == Math.Min(first, at) && p.Second == Math.Max(first, at) && p.Differ);
        string better = Digits.Fixed(Math.Abs(share), Math.Abs(share) < 9.95 ? 1 : 0);
        string what = _session.Aim switch
        {
            TuningAim.MostDelivered => "more water",
            TuningAim.LeastWasted => "more of the water put to use",
            _ => "less peak",
        };
        return differ
            ? $"Against the first trial: {better} % {what}."
            : $"Against the first trial: {better} % {what}, but so little may be chance.";
    }

    private static Rich Pipe(Trial trial) => trial.AllowablePa is { } allowed && trial.PeakPa is { } peak
        ? Rich.Of($"The peak is {Cell(Show.Of(Kind.Pressure, peak))} of {Cell(Show.Of(Kind.Pressure, allowed))} that may recur. {Fatigue(trial)}")
        : Rich.Of($"The peak is {Cell(Show.Of(Kind.Pressure, trial.PeakPa))}; what the pipe bears isn't known, so nothing held the search back. Put its rating into the site file.");

    private static string Fatigue(Trial trial) => trial.Verdict == PipeVerdict.Over
        ? "The endless repetition asks more of the pipe than its usual life, though: see the pipe's page of the report."
        : "";

    private Table Trials() => new(
        "In the order they were made",
        ["Trial", "Setting", "Delivered", "Wasted", "Efficiency", "Peak", "Beats"],
        [new TableGroup(null, [.. _session.Trials.Select((t, i) => Row(t, i))])]);

    private TableRow Row(Trial trial, int index)
    {
        string name = $"{index + 1}";
        Rich setting = _session.Knob.Text(trial.Setting);
        if (!trial.Works)
        {
            return new TableRow(name, Words.Capital(trial.Why), [setting, "none", "", "", "", ""]);
        }

        Rich meaning = trial == _advice.Best ? "the best so far" : trial.WithinRating ? Rich.Empty : "over what the pipe bears";
        return new TableRow(name, meaning,
        [
            setting, Cell(Show.Of(Kind.Flow, trial.DeliveredM3PerS)), Cell(Show.Of(Kind.Flow, trial.WasteM3PerS)),
            Cell(Show.Of(Kind.Share, trial.Efficiency)), Cell(Show.Of(Kind.Pressure, trial.PeakPa)), Cell(Show.Of(Kind.Rate, trial.RatePerMin)),
        ]);
    }

    private static Rich Cell(Measure? measure) => measure is { } m ? m : "not told";

    private IEnumerable<Block> Pictures()
    {
        Knob knob = _session.Knob;
        string along = knob.Unit.Length > 0 ? $"{Words.Capital(knob.Name)} ({knob.Unit})" : Words.Capital(knob.Name);
        bool share = _session.Aim == TuningAim.LeastWasted;
        yield return share
            ? Picture("efficiency", "Efficiency over the setting", "Efficiency (%)", along, t => 100 * t.Efficiency!.Value.Value, s => 100 * s.Efficiency, null)
            : Picture("delivered", "Delivered water over the setting", "Delivered (L/min)", along, t => LitresPerMinute * t.DeliveredM3PerS!.Value.Value, s => LitresPerMinute * s.DeliveredM3PerS, null);
        double? allowed = _session.Working.Min(t => t.AllowablePa);
        yield return Picture(
            "peak", "Peak over the setting", "Peak (bar)", along, t => t.PeakPa!.Value.Value / PascalsPerBar, s => s.PeakPa / PascalsPerBar,
            allowed is { } pa && pa < Near * _session.Working.Max(t => t.PeakPa!.Value.Value) ? (pa / PascalsPerBar, "may recur") : null);
    }

    private PictureBlock Picture(
        string id, string title, string label, string along, Func<Trial, double> whole, Func<Stretch, double> part, (double, string)? limit)
    {
        PlottedTrial[] trials = [.. _session.Trials.Select((t, i) => (Trial: t, Number: i + 1)).Where(t => t.Trial.Works)
            .Select(t => new PlottedTrial(t.Trial.Setting, whole(t.Trial), t.Number, t.Trial == _advice.Best))];
        IReadOnlyList<CurvePoint> curve = TuningCurve.Of(_session, whole, part);
        string alt = $"{label} of each trial: " + string.Join("; ", trials.Select(t =>
            $"{_session.Knob.Text(t.Setting)}: {Digits.Significant(t.Value, 3)}")) + ".";
        Rich caption = curve.Count > 0
            ? "Numbers are trials. The band holds the true curve in about nineteen of twenty places, errors that all trials share left out."
            : "Numbers are trials.";
        (double, double) range = (_session.Knob.Lowest, _session.Knob.Highest);
        return new PictureBlock(new Drawing(id, title, alt, caption, f => TrialsPlot.Draw(label, along, range, trials, curve, limit, f)) { Height = 0.8, PaperHeight = 0.6 });
    }

    private IEnumerable<Block> Differences()
    {
        if (_pairs.Count == 0)
        {
            yield return new Paragraph("Too little was recorded to tell: record each setting for a minute or more.");
            yield break;
        }

        Rich[] told = [.. _pairs.Where(p => p.Differ).Select(p => (Rich)
            $"{Better(p)} is better than {Worse(p)}: by {Digits.Fixed(100 * Math.Abs(p.Share), 1)} %.")];
        yield return told.Length > 0
            ? new Bullets(told)
            : new Paragraph("No two trials differ by more than chance allows.");
        yield return new Paragraph(
            "Differences that aren't listed may be chance (five in a hundred for all pairs together; Student's t, Holm's correction). "
            + "They are far smaller than the ± of the figures, since most of that is the same in every trial.");
    }

    private static string Better(TrialPair pair) => $"Trial {(pair.Share > 0 ? pair.Second : pair.First) + 1}";

    private static string Worse(TrialPair pair) => $"trial {(pair.Share > 0 ? pair.First : pair.Second) + 1}";

    private static Callout Safety() => new(
        Tone.Look, "Water under pressure",
        [
            "Shut the gate valve of the drive pipe and the valve of the delivery main, and let the pressure out of the ram, before you touch the waste valve. "
            + "Keep fingers away from a beating valve. A heavier weight, a stiffer spring or a longer stroke hits harder.",
            "This sheet is no judgement of your pipe. Follow the makers' instructions and local codes, and ask a licensed professional where they ask for one.",
        ]);
}
