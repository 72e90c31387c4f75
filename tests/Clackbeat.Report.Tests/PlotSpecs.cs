using Clackbeat.Report.Fonts;
using Clackbeat.Report.Plots;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Figures;
using Clackbeat.Words;
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

    /// <summary>Every label of the picture lies within it, on a phone, a desk and paper: none loses its sign or its unit.</summary>
    [Theory]
    [MemberData(nameof(Frames))]
    public void No_label_of_a_picture_is_cut_off(string frame)
    {
        Frame size = frame switch { "narrow" => Frame.Narrow, "wide" => Frame.Wide, _ => Frame.Paper };
        var input = new PlotInput(MadeUpRam.Site(), MadeUpRam.Analysis(), null);
        foreach (Catalogue language in Catalogue.All)
        {
            using IDisposable spoken = Catalogue.Use(language);
            (string Name, Plot Plot)[] plots =
            [
                ("ladder", LadderPlot.Draw(input, size)),
                .. input.Analysis.Energy is { } energy ? [("energy", EnergyPlot.Draw(energy, size))] : Array.Empty<(string, Plot)>(),
            ];
            foreach ((string name, Plot plot) in plots)
            {
                using Plot drawn = plot;
                drawn.GetSvgXml(size.Width, size.Height);
                PixelRect data = drawn.LastRender.DataRect;
                Assert.All(drawn.GetPlottables<ScottPlot.Plottables.Text>(), text =>
                {
                    using var paint = Paint.NewDisposablePaint();
                    float width = text.LabelStyle.Measure(text.LabelText, paint).Width;
                    float at = drawn.GetPixel(text.Location).X + text.OffsetX;
                    float left = text.LabelAlignment switch
                    {
                        Alignment.MiddleRight or Alignment.UpperRight or Alignment.LowerRight => at - width,
                        Alignment.MiddleCenter or Alignment.UpperCenter or Alignment.LowerCenter => at - (width / 2),
                        _ => at,
                    };
                    Assert.True(left >= data.Left - 1 && left + width <= data.Right + 1, $"{language.Language.Code} {frame} {name}: {text.LabelText} from {left} to {left + width} in {data.Left} to {data.Right}");
                });
            }
        }
    }

    public static TheoryData<string> Frames => ["narrow", "wide", "paper"];

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
