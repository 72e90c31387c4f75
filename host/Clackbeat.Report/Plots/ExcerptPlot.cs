using Clackbeat.Signal.Beats;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>A few beats sample by sample, the phases of each shaded and those of the first one named.</summary>
internal static class ExcerptPlot
{
    private const int MostBeats = 3;

    /// <summary>Null when the record has no excerpt.</summary>
    public static Plot Draw(PlotInput input, Frame frame)
    {
        IReadOnlyList<double> times = input.Analysis.Picture.Excerpt.TimeS;
        List<Beat> beats = Beats(input, frame.IsNarrow ? 2 : MostBeats);
        (double from, double to) = Window(times, beats);
        List<List<Coordinates>> pieces = Curves.Pieces(input.Analysis.Picture.Excerpt, from, to);
        (double low, double high) = Range(input, pieces);

        var sheet = new Sheet(frame);
        double room = beats.Count > 0 ? 0.30 : 0.06;
        sheet.PressureAxis(low - (0.06 * (high - low)), high + (room * (high - low)));
        sheet.TimeAxis(from, to, Phrases.Say("plots.time-start-record"));
        sheet.Gaps(input.Analysis.Input.Gaps);
        foreach (Beat beat in beats)
        {
            sheet.Stretch(beat.ClosureS, beat.DeliveryEndS, Ink.Sky, 0.38);
            sheet.Stretch(beat.DeliveryEndS, beat.OpenStartS, Ink.Orange, 0.38);
        }

        // Where the last waste valve stands open the curve runs low, and names of levels have room.
        double calm = beats.Count > 0 ? beats[^1].NextClosureS - (0.02 * (to - from)) : to;
        Levels(input, sheet, high, calm);
        foreach (List<Coordinates> piece in pieces)
        {
            sheet.Line(Curves.Simplify(piece, sheet.Pixel(to - from, high - low)), Ink.Text, 1.5f);
        }

        if (beats.Count > 0)
        {
            NamePhases(sheet, beats[0], low, high, room);
        }

        return sheet.Plot;
    }

    private static List<Beat> Beats(PlotInput input, int most)
    {
        IReadOnlyList<double> times = input.Analysis.Picture.Excerpt.TimeS;
        return times.Count == 0
            ? []
            : [.. input.Analysis.BeatList.Where(b => b.ClosureS >= times[0] && b.NextClosureS <= times[^1]).Take(most)];
    }

    private static (double From, double To) Window(IReadOnlyList<double> times, List<Beat> beats)
    {
        if (beats.Count == 0)
        {
            return (times[0], Math.Max(times[^1], times[0] + 1e-3));
        }

        double margin = 0.12 * beats[0].IntervalS;
        return (Math.Max(times[0], beats[0].ClosureS - margin), Math.Min(times[^1], beats[^1].NextClosureS + margin));
    }

    private static (double Low, double High) Range(PlotInput input, List<List<Coordinates>> pieces)
    {
        var values = pieces.SelectMany(p => p).Select(p => p.Y).Append(0).Append(input.SupplyBar).Append(input.DeliveryBar).ToList();
        double low = values.Min();
        double high = values.Max();
        // The limit of the pipe belongs in the picture only where it does not squash the beat.
        return (low, input.LimitBar is { } limit && limit <= low + (1.5 * (high - low)) ? Math.Max(high, limit) : high);
    }

    private static void Levels(PlotInput input, Sheet sheet, double high, double calm)
    {
        sheet.Level(input.DeliveryBar, Phrases.Say("plots.delivery-outlets-height"), Ink.Green, LinePattern.Dashed, calm);
        sheet.Level(input.SupplyBar, Phrases.Say("plots.supply-level"), Ink.Blue, LinePattern.Dotted, calm);
        if (input.LimitBar is { } limit && limit <= high)
        {
            sheet.Level(limit, input.LimitName, Ink.Vermilion, LinePattern.DenselyDashed, calm);
        }
    }

    // The phases may be too short to hold their names, so the names step down like a stair, each from its own start.
    private static void NamePhases(Sheet sheet, Beat beat, double low, double high, double room)
    {
        (string Name, double At)[] phases =
        [
            (Phrases.Say("plots.1-waste-valve-shuts"), beat.ClosureS),
            (Phrases.Say("plots.2-delivery"), (beat.ClosureS + beat.DeliveryEndS) / 2),
            (Phrases.Say("plots.3-recoil"), (beat.DeliveryEndS + beat.OpenStartS) / 2),
            (Phrases.Say("plots.4-waste-valve-open"), (beat.OpenStartS + beat.NextClosureS) / 2),
        ];
        double top = high + (room * (high - low));
        double step = room * (high - low) / 4.2;
        for (int i = 0; i < phases.Length; i++)
        {
            double y = top - (step * (i + 0.15));
            LinePlot line = sheet.Plot.Add.Line(phases[i].At, y, phases[i].At, y - (step * 0.95));
            line.LineColor = Ink.Muted;
            line.LineWidth = 1;
            sheet.Note(phases[i].Name, phases[i].At, y, Alignment.UpperLeft, Ink.Text, bold: true);
        }
    }
}
