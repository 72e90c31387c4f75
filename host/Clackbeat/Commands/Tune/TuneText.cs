using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;
using Clackbeat.Words;

namespace Clackbeat.Commands.Tune;

/// <summary>A tuning session as a page of plain text.</summary>
internal static class TuneText
{
    /// <summary>The trials, the best one, and what to do next.</summary>
    public static void Write(Session session, TuningSession tuning, string path)
    {
        Advice advice = NextSetting.Of(tuning);
        if (tuning.Trials.Count > 0)
        {
            session.Out.WriteLine(Phrases.Say("tune.tuned", ("ram", tuning.Ram), ("aim", tuning.Aim.Meaning())));
            session.Out.WriteLine();
            Layout.Table(
                session, [Phrases.Say("tune.trial"), Phrases.Say("tune.setting"), Phrases.Say("tune.delivered"), Phrases.Say("tune.waste"), Phrases.Say("tune.efficiency"), Phrases.Say("tune.peak"), ""],
                tuning.Trials.Select((t, i) => Row(tuning, t, i, t == advice.Best)));
            Layout.Paragraph(session, Phrases.Say("tune.holds-truth-19-times-out"));
            session.Out.WriteLine();
            Layout.Bullets(session, [.. Differences(tuning)]);
        }

        foreach (string said in AboutBest(tuning, advice))
        {
            Layout.Paragraph(session, said);
        }

        session.Out.WriteLine(advice.Setting is { } setting
            ? Phrases.Say("tune.try-next", ("name", tuning.Knob.Name), ("setting", tuning.Knob.Text(setting)), ("why", advice.Why))
            : advice.Why);
        if (advice.Setting is { } next)
        {
            session.Out.WriteLine(
                Phrases.Say("tune.shut-gate-valve-let-pressure"));
            session.Out.WriteLine($"  clackbeat tune add {path} RECORDING --site SITE --at \"{tuning.Knob.Text(next)}\"");
        }
        else if (advice.Best is { } best)
        {
            session.Out.WriteLine(Phrases.Say("tune.leave-clackbeat-tune-sheet-out", ("name", tuning.Knob.Name), ("setting", tuning.Knob.Text(best.Setting)), ("path", path)));
        }
    }

    private static IEnumerable<string> AboutBest(TuningSession tuning, Advice advice)
    {
        if (advice.Best is not { } best)
        {
            yield break;
        }

        List<Trial> trials = [.. tuning.Trials];
        if (advice.Alike.Count > 0)
        {
            string others = string.Join(", ", advice.Alike.Select(t => (trials.IndexOf(t) + 1).ToString(CultureInfo.InvariantCulture)));
            yield return Phrases.Say("tune.trial-shows-no-clear-difference", ("trial", trials.IndexOf(best) + 1), ("count", advice.Alike.Count), ("others", others))
                + (advice.WastesLess ? Phrases.Say("tune.these-wastes-least") : ".");
        }

        if (advice.BestAtEnd != RangeEnd.None)
        {
            yield return advice.BestAtEnd == RangeEnd.Highest ? Phrases.Say("tune.best-is-highest") : Phrases.Say("tune.best-is-lowest");
        }
    }

    private static IReadOnlyList<string> Row(TuningSession tuning, Trial trial, int index, bool isBest)
    {
        string number = (index + 1).ToString(CultureInfo.InvariantCulture);
        return trial.Works
            ? [
                number, tuning.Knob.Text(trial.Setting), Text(tuning, QuantityKind.Flow, trial.DeliveredM3PerS), Text(tuning, QuantityKind.Flow, trial.WasteM3PerS),
                Text(tuning, QuantityKind.Share, trial.Efficiency), Text(tuning, QuantityKind.Pressure, trial.PeakPa),
                isBest ? Phrases.Say("tune.best") : trial.WithinRating ? "" : Phrases.Say("tune.over-pipes-limit"),
            ]
            : [number, tuning.Knob.Text(trial.Setting), Phrases.Say("tune.none"), "", "", "", trial.Why];
    }

    private static IEnumerable<string> Differences(TuningSession tuning)
    {
        IReadOnlyList<TrialPair> pairs = TrialDifferences.Of(tuning);
        int first = tuning.Trials.ToList().FindIndex(t => t.Works);
        foreach (TrialPair pair in pairs.Where(p => p.First == first))
        {
            string share = Math.Abs(100 * pair.Share).ToString("0.0", Catalogue.Current.Language.Numbers);
            yield return pair.Differ
                ? pair.Share > 0
                    ? Phrases.Say("tune.trial-better", ("second", pair.Second + 1), ("share", share), ("first", pair.First + 1))
                    : Phrases.Say("tune.trial-worse", ("second", pair.Second + 1), ("share", share), ("first", pair.First + 1))
                : Phrases.Say("tune.trial-shows-no-clear-difference-2", ("second", pair.Second + 1), ("first", pair.First + 1), ("share", share));
        }
    }

    private static string Text(TuningSession tuning, QuantityKind kind, Figure? figure) =>
        figure is { } f ? (f.IsUpperBound ? Phrases.Say("tune.most") : "") + Phrases.Format(kind, f.Value, f.U, tuning.Units) : Phrases.Say("tune.known");
}
