using Clackbeat.Report.Fonts;
using Clackbeat.Report.Plots;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using ScottPlot;

namespace Clackbeat.Report.Tests;

public sealed class PlotSpecs
{
    [Fact]
    public void The_typeface_travels_with_the_program()
    {
        PlotFontResolver.Register();
        Assert.Equal(ReportFont.Family, ScottPlot.Fonts.GetTypeface(ReportFont.Family, bold: false, italic: false).FamilyName);
        Assert.True(ScottPlot.Fonts.GetTypeface(ReportFont.Family, bold: true, italic: false).IsBold);
        // "wOF2" and the TrueType version number open the files: W3C WOFF 2.0 §4.1, OpenType "Organization of an OpenType font".
        Assert.Equal("wOF2"u8.ToArray(), ReportFont.WebLatin(bold: false)[..4]);
        Assert.Equal([0, 1, 0, 0], ReportFont.TrueType(bold: true)[..4]);
    }

    [Fact]
    public void A_curve_breaks_where_samples_are_missing()
    {
        double[] t = [0, 0.001, 0.002, 0.003, 0.050, 0.051, 0.052, 0.053];
        var curve = new TraceCurve(t, [.. t.Select(_ => 1e5)]);
        Assert.Equal([4, 4], Curves.Pieces(curve, 0, 1).Select(p => p.Count));
    }

    [Fact]
    public void A_missing_value_breaks_a_curve_too()
    {
        var curve = new TraceCurve([0, 1, 2, 3, 4], [1, 1, double.NaN, 1, 1]);
        Assert.Equal([2, 2], Curves.Pieces(curve, 0, 10).Select(p => p.Count));
    }

    [Fact]
    public void The_whole_record_is_drawn_in_as_many_bands_as_it_has_stretches_between_gaps()
    {
        int Bands(RamAnalysis a) => RecordPlot.Draw(new PlotInput(MadeUpRam.Site(), a, null), Frame.Wide)
            .GetPlottables<ScottPlot.Plottables.Polygon>().Count();
        Assert.Equal(1, Bands(MadeUpRam.Analysis()));
        Assert.Equal(2, Bands(MadeUpRam.Analysis(gap: new Gap(14, 6))));
    }

    [Fact]
    public void Leaving_out_points_keeps_every_corner_that_can_be_seen()
    {
        var random = new Random(3);
        Coordinates[] points = [.. Enumerable.Range(0, 2000).Select(i => new Coordinates(i, 100 * Math.Sin(i / 60.0) + random.NextDouble()))];
        List<Coordinates> kept = Curves.Simplify(points, (1, 1), 2);
        Assert.InRange(kept.Count, 10, 400);
        // Between two kept points no dropped one may lie further off the chord than was allowed.
        for (int i = 0; i + 1 < kept.Count; i++)
        {
            (Coordinates a, Coordinates b) = (kept[i], kept[i + 1]);
            double length = Math.Sqrt(Math.Pow(b.X - a.X, 2) + Math.Pow(b.Y - a.Y, 2));
            Assert.All(
                points.Where(p => p.X > a.X && p.X < b.X),
                p => Assert.True(Math.Abs(((p.X - a.X) * (b.Y - a.Y)) - ((p.Y - a.Y) * (b.X - a.X))) / length <= 2.0001));
        }
    }

    [Fact]
    public void The_median_beat_of_three_levels_is_the_middle_one()
    {
        TraceCurve Level(double bar) => new([.. Enumerable.Range(0, 101).Select(i => i / 100.0)], [.. Enumerable.Repeat(bar * 1e5, 101)]);
        BeatBundle bundle = BeatBundle.Of([Level(3), Level(1), Level(2)])!;
        Assert.All(bundle.Median, v => Assert.Equal(2, v, 9));
        // Linear interpolation of order statistics: 1 + 0.05·2 and 1 + 0.95·2.
        Assert.All(bundle.Low, v => Assert.Equal(1.1, v, 9));
        Assert.All(bundle.High, v => Assert.Equal(2.9, v, 9));
    }

    [Fact]
    public void Ticks_are_round_in_the_unit_they_are_labelled_in()
    {
        double psiPerBar = 1e5 / 6894.757293168;
        (double Position, string Label)[] ticks = [.. Ticks.Round(-1.5, 4, 5, psiPerBar)];
        Assert.Equal(["\u221220", "0", "20", "40"], ticks.Select(t => t.Label));
        Assert.Equal(20 / psiPerBar, ticks[2].Position, 9);
    }
}
