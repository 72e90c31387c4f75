using System.Globalization;
using Clackbeat.Frame;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Quantities;
using Clackbeat.Tuning.Search;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Commands;

/// <summary>A tuning session as a page of plain text.</summary>
internal static class TuneText
{
    /// <summary>The trials, the best one, and what to do next.</summary>
    public static void Write(Session session, TuningSession tuning, string path)
    {
        Advice advice = NextSetting.Of(tuning);
        if (tuning.Trials.Count > 0)
        {
            session.Out.WriteLine($"{tuning.Ram}, tuned for {tuning.Aim.Meaning()}");
            session.Out.WriteLine();
            Layout.Table(
                session, ["Trial", "Setting", "Delivered", "To waste", "Efficiency", "Peak", ""],
                tuning.Trials.Select((t, i) => Row(tuning, t, i, t == advice.Best)));
            session.Out.WriteLine();
            Layout.Bullets(session, [.. Differences(tuning)]);
        }

        session.Out.WriteLine(advice.Setting is { } setting
            ? $"Try next: {tuning.Knob.Name} {tuning.Knob.Text(setting)}. {advice.Why}"
            : advice.Why);
        if (advice.Setting is { } next)
        {
            session.Out.WriteLine(
                "Shut the gate valve and let the pressure out before you touch the valve. Let the ram settle for some minutes, record one or two, then:");
            session.Out.WriteLine($"  clackbeat tune add {path} RECORDING --site SITE --at \"{tuning.Knob.Text(next)}\"");
        }
        else if (advice.Best is { } best)
        {
            session.Out.WriteLine($"Leave the {tuning.Knob.Name} at {tuning.Knob.Text(best.Setting)}. 'clackbeat tune sheet {path} --out sheet.pdf' prints all this.");
        }
    }

    private static IReadOnlyList<string> Row(TuningSession tuning, Trial trial, int index, bool isBest)
    {
        string number = (index + 1).ToString(CultureInfo.InvariantCulture);
        return trial.Works
            ? [
                number, tuning.Knob.Text(trial.Setting), Text(tuning, QuantityKind.Flow, trial.DeliveredM3PerS), Text(tuning, QuantityKind.Flow, trial.WasteM3PerS),
                Text(tuning, QuantityKind.Share, trial.Efficiency), Text(tuning, QuantityKind.Pressure, trial.PeakPa),
                isBest ? "best" : trial.WithinRating ? "" : "over what the pipe bears",
            ]
            : [number, tuning.Knob.Text(trial.Setting), "none", "", "", "", trial.Why];
    }

    private static IEnumerable<string> Differences(TuningSession tuning)
    {
        IReadOnlyList<TrialPair> pairs = TrialDifferences.Of(tuning);
        int first = tuning.Trials.ToList().FindIndex(t => t.Works);
        foreach (TrialPair pair in pairs.Where(p => p.First == first))
        {
            string share = Math.Abs(100 * pair.Share).ToString("0.0", CultureInfo.InvariantCulture);
            yield return pair.Differ
                ? $"Trial {pair.Second + 1} is {share} % {(pair.Share > 0 ? "better" : "worse")} than trial {pair.First + 1}."
                : $"Trial {pair.Second + 1} can't be told from trial {pair.First + 1} ({share} % apart).";
        }
    }

    private static string Text(TuningSession tuning, QuantityKind kind, Figure? figure) =>
        figure is { } f ? QuantityFormat.Format(kind, f.Value, f.U, tuning.Units) : "not told";
}
