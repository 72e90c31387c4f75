using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>The first seconds of a record whose ram stops, beside the level of standing water: a stop has no typical beat.</summary>
internal static class StopPlot
{
    private const double ShownS = 20;
    private const double Bar = 1e-5;

    // Room above the supply level and below zero, as shares of that level; where it is unknown, three metres of water stand in.
    private const double Above = 1.4;
    private const double Below = 0.3;
    private const double UsualSupplyPa = 3e4;

    /// <summary>Draws it.</summary>
    public static Plot Draw(RamAnalysis analysis, Frame frame)
    {
        Envelope whole = analysis.Picture.Whole;
        var sheet = new Sheet(frame);
        int count = Math.Min(whole.LowPa.Count, (int)(ShownS / whole.StepS));
        double[] times = [.. Enumerable.Range(0, count).Select(i => whole.StartS + (i * whole.StepS))];
        double supply = analysis.Pressure.StaticPa.GetValueOrDefault(UsualSupplyPa) * Bar;
        double top = Above * supply;
        sheet.PressureAxis(-Below * top, top);
        sheet.TimeAxis(0, ShownS, Phrases.Say("plots.time-start-record"));
        sheet.Level(supply, Phrases.Say("plots.supply-level"), Ink.Green, LinePattern.Dashed, ShownS);
        sheet.Band(times, [.. whole.LowPa.Take(count).Select(p => p * Bar)], [.. whole.HighPa.Take(count).Select(p => p * Bar)], Ink.Blue, 1);
        return sheet.Plot;
    }
}
