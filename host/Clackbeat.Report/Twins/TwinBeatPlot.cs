using Clackbeat.Report.Plots;
using Clackbeat.Twin.Model;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Twins;

/// <summary>The measured beat with its twin laid over it, the beat foretold after a change, and where measured and twin part.</summary>
internal static class TwinBeatPlot
{
    private const double RowPx = 19;
    private const int Points = 900;

    /// <summary>Beats over each other [bar].</summary>
    public static Plot Draw(LaidBeats beats, Frame frame)
    {
        var sheet = new Sheet(frame);
        double endS = beats.EndS;
        List<(string Name, Color Color, LinePattern Pattern, List<Coordinates> Line)> lines =
        [
            (Phrases.Say("tried.measured"), Ink.Blue, LinePattern.Solid, Curve(beats.Measured, beats.EndS, beats.BarPerM)),
            (Phrases.Say("tried.twin"), Ink.Vermilion, LinePattern.Dashed, Curve(beats.Own, beats.EndS, beats.BarPerM)),
        ];
        if (beats.Foretold is { } foretold)
        {
            double end = foretold.StartS + (foretold.StepS * (foretold.HeadM.Count - 1));
            endS = Math.Max(endS, end);
            lines.Add((Phrases.Say("tried.foretold"), Ink.Green, LinePattern.Dotted, Curve(foretold, end, beats.BarPerM)));
        }

        double low = lines.Min(l => l.Line.Min(p => p.Y));
        double high = lines.Max(l => l.Line.Max(p => p.Y));
        double pad = 0.06 * (high - low);
        sheet.PressureAxis(low - pad, high + (4 * pad));
        sheet.TimeAxis(beats.Measured.StartS, endS, Phrases.Say("plots.time-after-waste-valve-shuts"));
        (double, double) pixel = sheet.Pixel(endS - beats.Measured.StartS, high - low);
        AxisLimits limits = sheet.Plot.Axes.GetLimits();
        double x = limits.Left + ((limits.Right - limits.Left) * 0.55);
        double row = RowPx * sheet.Pixel(1, limits.Top - limits.Bottom).Y;
        double swatch = (limits.Right - limits.Left) * 0.07;
        for (int i = 0; i < lines.Count; i++)
        {
            sheet.Line(Curves.Simplify(lines[i].Line, pixel), lines[i].Color, 2.2f, lines[i].Pattern);
            double y = limits.Top - (row * (i + 0.8));
            sheet.Line([new(x, y), new(x + swatch, y)], lines[i].Color, 2.2f, lines[i].Pattern);
            sheet.Note(lines[i].Name, x + swatch, y, Alignment.MiddleLeft, Ink.Text);
        }

        return sheet.Plot;
    }

    /// <summary>Measured less twin [bar].</summary>
    public static Plot DrawParting(LaidBeats beats, Frame frame)
    {
        var sheet = new Sheet(frame);
        List<Coordinates> line = Parting(beats);
        double most = line.Max(p => Math.Abs(p.Y));
        sheet.ValueAxis(-1.1 * most, 1.1 * most, Phrases.Say("tried.part-axis"));
        sheet.TimeAxis(beats.Measured.StartS, beats.EndS, Phrases.Say("plots.time-after-waste-valve-shuts"));
        sheet.Line([new(beats.Measured.StartS, 0), new(beats.EndS, 0)], Ink.Muted, 1.2f);
        sheet.Line(Curves.Simplify(line, sheet.Pixel(beats.EndS - beats.Measured.StartS, 2.2 * most)), Ink.Blue, 2f);
        return sheet.Plot;
    }

    /// <summary>Largest difference of measured and twin [bar].</summary>
    public static double Most(LaidBeats beats) => Parting(beats).Max(p => Math.Abs(p.Y));

    private static List<Coordinates> Parting(LaidBeats beats) => [.. Curve(beats.Measured, beats.EndS, beats.BarPerM)
        .Select(p => new Coordinates(p.X, p.Y - (beats.BarPerM * beats.Own.At(p.X))))];

    private static List<Coordinates> Curve(HeadCurve curve, double endS, double unit) => [.. Enumerable.Range(0, Points + 1)
        .Select(i => curve.StartS + ((endS - curve.StartS) * i / Points))
        .Select(t => new Coordinates(t, unit * curve.At(t)))];
}

/// <summary>Beats laid on each other where their knock is half way up.</summary>
/// <param name="Measured">The record's median beat.</param>
/// <param name="Own">The twin's.</param>
/// <param name="Foretold">The one after a change; null without one.</param>
/// <param name="BarPerM">Pressure of a metre of water [bar].</param>
internal sealed record LaidBeats(HeadCurve Measured, HeadCurve Own, HeadCurve? Foretold, double BarPerM)
{
    // The next knock comes a little sooner or later in either, which would hide all other differences.
    private const double ShownShare = 0.95;

    /// <summary>Up to where measured and twin are shown [s].</summary>
    public double EndS => ShownShare * Math.Min(End(Measured), End(Own));

    private static double End(HeadCurve curve) => curve.StartS + (curve.StepS * (curve.HeadM.Count - 1));
}
