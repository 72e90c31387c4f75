using Clackbeat.Report.Wording;
using Clackbeat.Words;
using ScottPlot;
using ScottPlot.Plottables;
using ScottPlot.TickGenerators;

namespace Clackbeat.Report.Plots;

/// <summary>A bar a month, its ± on top; a month without a record keeps its place and says so.</summary>
internal static class WaterMonthsPlot
{
    private const double Half = 0.36;
    private const double Headroom = 1.35;

    // 1 US gallon is 3.785411784 L: NIST SP 811 (2008), appendix B.
    private const double ThousandGallonsPerM3 = 1 / 3.785411784;

    public static Plot Draw(IReadOnlyList<SeasonMonth> months, Frame frame)
    {
        double top = Math.Max(months.Max(m => (m.DeliveredM3 ?? 0) + m.DeliveredU), 1e-3);
        bool roomy = months.Count <= (frame.IsNarrow ? 6 : 14);
        var sheet = new Sheet(frame);
        sheet.ValueAxis(0, Headroom * top, "m³");
        sheet.Plot.Axes.Left.TickGenerator = Ticks.For(0, Headroom * top, 3);
        sheet.Plot.Axes.SetLimitsX(-0.6, months.Count - 0.4);
        sheet.Plot.Axes.SetLimitsY(0, Headroom * top, sheet.Plot.Axes.Right);
        sheet.Plot.Axes.Right.TickGenerator = Ticks.For(0, Headroom * top, 3, ThousandGallonsPerM3);
        sheet.Plot.Axes.Right.Label.Text = Phrases.Say("plots.1000-gal");
        sheet.Plot.Axes.Right.MinimumSize = 46;
        sheet.Plot.Axes.Bottom.TickGenerator = Names(months, frame.IsNarrow ? 6 : 14);
        sheet.Plot.Grid.XAxisStyle.IsVisible = false;
        for (int i = 0; i < months.Count; i++)
        {
            Bar(sheet, i, months[i], roomy);
        }

        return sheet.Plot;
    }

    private static void Bar(Sheet sheet, int at, SeasonMonth month, bool roomy)
    {
        if (month.DeliveredM3 is not { } water)
        {
            sheet.Note(Phrases.Say("plots.no-record"), at, 0, Alignment.LowerCenter, Ink.Muted);
            return;
        }

        Rectangle bar = sheet.Plot.Add.Rectangle(at - Half, at + Half, 0, water);
        bar.FillColor = Ink.Blue;
        bar.LineWidth = 0;
        sheet.Line([new(at, Math.Max(0, water - month.DeliveredU)), new(at, water + month.DeliveredU)], Ink.Text, 1.6f);
        if (roomy)
        {
            int decimals = water < 10 ? 1 : 0;
            sheet.Note((month.IsUpperBound ? "≤ " : "") + Digits.Fixed(water, decimals), at, water + month.DeliveredU, Alignment.LowerCenter, Ink.Text, bold: true);
            if (month.UnknownH >= 24)
            {
                sheet.Note($"{Digits.Fixed(month.UnknownH / 24, 0)} d", at, 0, Alignment.LowerCenter, Colors.White);
            }
        }
    }

    private static NumericManual Names(IReadOnlyList<SeasonMonth> months, int most)
    {
        var ticks = new NumericManual();
        int step = Math.Max(1, (int)Math.Ceiling(months.Count / (double)most));
        for (int i = 0; i < months.Count; i += step)
        {
            string year = i == 0 || months[i].Month.Month <= step ? $" {months[i].Month.Year}" : "";
            ticks.AddMajor(i, Dates.Short(months[i].Month) + year);
        }

        return ticks;
    }
}
