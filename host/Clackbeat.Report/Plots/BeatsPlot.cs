using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;

namespace Clackbeat.Report.Plots;

/// <summary>Interval or plateau of every beat, beside those of the same ram when it was well: a fault of the rhythm shows in no single beat.</summary>
internal static class BeatsPlot
{
    private const double Bar = 1e-5;

    /// <summary>Draws it.</summary>
    /// <param name="ill">The record.</param>
    /// <param name="well">The same ram when it was well.</param>
    /// <param name="isPlateau">The plateau of each beat; otherwise its interval.</param>
    /// <param name="frame">Size.</param>
    public static Plot Draw(RamAnalysis ill, RamAnalysis well, bool isPlateau, Frame frame)
    {
        Func<Beat, double> figure = isPlateau ? b => b.DeliveryPa * Bar : b => b.IntervalS;
        double[] all = [.. ill.BeatList.Concat(well.BeatList).Select(figure)];
        double pad = Math.Max(0.15 * (all.Max() - all.Min()), 0.03 * all.Max());
        var sheet = new Sheet(frame);
        if (isPlateau)
        {
            sheet.PressureAxis(all.Min() - pad, all.Max() + pad);
        }
        else
        {
            sheet.ValueAxis(all.Min() - pad, all.Max() + pad, Phrases.Say("plots.beat-beat-s"));
        }

        sheet.TimeAxis(0, ill.BeatList.Concat(well.BeatList).Max(b => b.NextClosureS), Phrases.Say("plots.time-start-record"));
        Dots(sheet, well, figure, Ink.Vermilion, MarkerShape.OpenCircle);
        Dots(sheet, ill, figure, Ink.Blue, MarkerShape.FilledCircle);
        return sheet.Plot;
    }

    private static void Dots(Sheet sheet, RamAnalysis record, Func<Beat, double> figure, Color color, MarkerShape shape)
    {
        Scatter dots = sheet.Plot.Add.ScatterPoints(record.BeatList.Select(b => new Coordinates(b.ClosureS, figure(b))).ToArray(), color);
        dots.MarkerShape = shape;
        dots.MarkerSize = 7;
    }
}
