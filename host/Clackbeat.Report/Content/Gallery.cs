using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Flow;
using Clackbeat.Words;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Report.Content;

/// <summary>The plots that this record can fill, with the words that stand in for them.</summary>
internal sealed class Gallery(PlotInput input)
{
    private RamAnalysis Analysis => input.Analysis;

    public IReadOnlyList<Block> Beat()
    {
        var blocks = new List<Block>();
        if (Analysis.Picture.Excerpt.TimeS.Count > 1)
        {
            blocks.Add(new PictureBlock(new Drawing("excerpt", ReportWords.ExcerptTitle, ExcerptAlt(), ReportWords.ExcerptCaption, f => ExcerptPlot.Draw(input, f))));
        }

        if (BeatBundle.Of(Analysis.Picture.Overlay) is not null)
        {
            Rich caption = input.Baseline is null ? ReportWords.OverlayCaption : ReportWords.OverlayCaption.Then(ReportWords.BaselineCaption);
            blocks.Add(new PictureBlock(new Drawing("overlay", ReportWords.OverlayTitle, OverlayAlt(), caption, f => OverlayPlot.Draw(input, f))));
        }

        return blocks;
    }

    public IReadOnlyList<Block> Along()
    {
        var blocks = new List<Block>();
        if (Analysis.Input.Marks.Count > 0)
        {
            blocks.Add(new Paragraph(Phrases.Say("report.numbered-flags-pictures-mark-what")));
            blocks.Add(new Bullets([.. Analysis.Input.Marks.Select((m, i) => (Rich)Phrases.Say("report.mark", ("i", i + 1), ("duration", Show.Duration(m.TimeS)), ("words", m.Words)))]));
        }

        if (Analysis.BeatList.Count > 1)
        {
            blocks.Add(new PictureBlock(new Drawing("interval", ReportWords.IntervalTitle, IntervalAlt(), ReportWords.IntervalCaption, f => RhythmPlot.DrawIntervals(input, f)) { Height = 0.7 }));
            blocks.Add(new PictureBlock(new Drawing("peaks", ReportWords.PeakTitle, PeakAlt(), ReportWords.PeakCaption, f => RhythmPlot.DrawPeaks(input, f)) { Height = 0.75 }));
        }

        if (Analysis.Picture.Whole.LowPa.Any(double.IsFinite))
        {
            blocks.Add(new PictureBlock(new Drawing("whole", ReportWords.RecordTitle, WholeAlt(), ReportWords.RecordCaption, f => RecordPlot.Draw(input, f)) { Height = 0.75 }));
        }

        return blocks;
    }

    public IReadOnlyList<Block> Ladder() => LadderPlot.CanDraw(input)
        ? [new PictureBlock(new Drawing("ladder", ReportWords.LadderTitle, LadderAlt(), ReportWords.LadderCaption, f => LadderPlot.Draw(input, f)) { Height = 0.8 })]
        : [];

    public IReadOnlyList<Block> Water()
    {
        var blocks = new List<Block>();
        if (Analysis.Energy is { DrawnJ: > 0 } energy)
        {
            blocks.Add(new PictureBlock(new Drawing("energy", ReportWords.EnergyTitle, EnergyAlt(energy), ReportWords.EnergyCaption, f => EnergyPlot.Draw(energy, f)) { Height = 0.8 }));
        }

        if (Analysis.BeatList.Count(b => b.Flow is not null) > 1)
        {
            blocks.Add(new PictureBlock(new Drawing("volumes", ReportWords.VolumeTitle, VolumeAlt(), ReportWords.VolumeCaption, f => RhythmPlot.DrawVolumes(input, f)) { Height = 0.7 }));
        }

        return blocks;
    }

    public IReadOnlyList<Block> Load()
    {
        var blocks = new List<Block>();
        if (LevelPlot.CanDraw(input))
        {
            blocks.Add(new PictureBlock(new Drawing("levels", ReportWords.LevelTitle, LevelAlt(), ReportWords.LevelCaption, f => LevelPlot.Draw(input, f))));
        }

        if (RainflowPlot.CanDraw(input))
        {
            blocks.Add(new PictureBlock(new Drawing("swings", ReportWords.SwingTitle, SwingAlt(), ReportWords.SwingCaption, f => RainflowPlot.Draw(input, f))));
        }

        return blocks;
    }

    private static string EnergyAlt(EnergySplit energy) =>
        Phrases.Say("report.where-energy-mean-beat-goes")
        + string.Join(", ", EnergyPlot.Steps(energy).Select(s => string.Create(
            System.Globalization.CultureInfo.InvariantCulture, $"{char.ToLowerInvariant(s.Name[0])}{s.Name[1..]} {100 * s.Joule / energy.DrawnJ:0} %"))) + ".";

    private string VolumeAlt()
    {
        double[] volumes = [.. Analysis.BeatList.Where(b => b.Flow is not null).Select(b => b.Flow!.DeliveredM3).Order()];
        return Phrases.Say("report.water-delivered-each-beats-along", ("count", Digits.Count(volumes.Length)), ("low", Amount(volumes[0])), ("high", Amount(volumes[^1])), ("median", Amount(SortedArrayStatistics.Median(volumes))));
    }

    private static string Amount(double volumeM3) => Show.Of(Kind.Volume, volumeM3) is { } amount ? amount.Metric.ToString() : Phrases.Say("report.unknown-volume");

    private string LevelAlt() =>
        Phrases.Say("report.share-time-body-stands-each", ("suction_min_pa", Level(Analysis.Pressure.SuctionMinPa)), ("peak_max_pa", Level(Analysis.Pressure.PeakMaxPa)), ("allowable_pa", Level(Analysis.Pipe.AllowablePa)), ("ceiling_pa", Level(Analysis.Pipe.CeilingPa)));

    private string SwingAlt() =>
        Phrases.Say("report.swings-pressure-size-middle-largest", ("largest_range", Level(Analysis.Load?.Cycles.LargestRange)), ("allowable_pa", Level(Analysis.Pipe.AllowablePa)));

    private string ExcerptAlt() =>
        Phrases.Say("report.curve-pressure-ram-over-few", ("peak_median_pa", Level(Analysis.Pressure.PeakMedianPa)), ("delivery_pa", Level(Analysis.Pressure.Delivery?.Value)), ("suction_min_pa", Level(Analysis.Pressure.SuctionMinPa)));

    private string OverlayAlt() =>
        Phrases.Say("report.beats-drawn-over-one-another", ("count", Analysis.Picture.Overlay.Count));

    private string IntervalAlt() =>
        Phrases.Say("report.time-beat-beat-along-record", ("count", Analysis.BeatList.Count), ("median", Seconds(Analysis.Beats.IntervalMedianS)), ("low", Seconds(Analysis.Beats.IntervalP05S)), ("high", Seconds(Analysis.Beats.IntervalP95S)));

    private string PeakAlt() =>
        Phrases.Say("report.highest-pressure-every-beat-along", ("peak_median_pa", Level(Analysis.Pressure.PeakMedianPa)), ("peak_max_pa", Level(Analysis.Pressure.PeakMaxPa)));

    private string WholeAlt() =>
        Phrases.Say("report.pressure-over-whole-record-gaps", ("duration", Show.Duration(Analysis.Input.DurationS)), ("suction_min_pa", Level(Analysis.Pressure.SuctionMinPa)), ("peak_max_pa", Level(Analysis.Pressure.PeakMaxPa)), ("count", Digits.Count(Analysis.Input.Gaps.Count)));

    private string LadderAlt() =>
        Phrases.Say("report.pressures-one-scale-rest-delivery", ("static_pa", Level(Analysis.Pressure.StaticPa)), ("delivery_pa", Level(Analysis.Pressure.Delivery?.Value)), ("peak_max_pa", Level(Analysis.Pressure.PeakMaxPa)), ("allowable_pa", Level(Analysis.Pipe.AllowablePa)), ("rated_pa", Level(Analysis.Pipe.RatedPa)));

    private static string Level(double? pascal) =>
        Show.Of(Kind.Pressure, pascal) is { } level ? level.ToString() : Phrases.Say("report.unknown-level");

    private static string Seconds(double? seconds) =>
        Show.Of(Kind.Time, seconds) is { } time ? time.Metric.ToString() : Phrases.Say("report.unknown-time");
}
