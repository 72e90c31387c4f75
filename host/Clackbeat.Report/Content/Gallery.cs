using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Flow;

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
            blocks.Add(new PictureBlock(new Drawing("excerpt", Words.ExcerptTitle, ExcerptAlt(), Words.ExcerptCaption, f => ExcerptPlot.Draw(input, f))));
        }

        if (BeatBundle.Of(Analysis.Picture.Overlay) is not null)
        {
            Rich caption = input.Baseline is null ? Words.OverlayCaption : Words.OverlayCaption.Then(Words.BaselineCaption);
            blocks.Add(new PictureBlock(new Drawing("overlay", Words.OverlayTitle, OverlayAlt(), caption, f => OverlayPlot.Draw(input, f))));
        }

        return blocks;
    }

    public IReadOnlyList<Block> Along()
    {
        var blocks = new List<Block>();
        if (Analysis.Input.Marks.Count > 0)
        {
            blocks.Add(new Paragraph("Numbered flags in the pictures mark what was done at the ram meanwhile:"));
            blocks.Add(new Bullets([.. Analysis.Input.Marks.Select((m, i) => (Rich)$"{i + 1}, after {Show.Duration(m.TimeS)}: {m.Words}")]));
        }

        if (Analysis.BeatList.Count > 1)
        {
            blocks.Add(new PictureBlock(new Drawing("interval", Words.IntervalTitle, IntervalAlt(), Words.IntervalCaption, f => RhythmPlot.DrawIntervals(input, f)) { Height = 0.7 }));
            blocks.Add(new PictureBlock(new Drawing("peaks", Words.PeakTitle, PeakAlt(), Words.PeakCaption, f => RhythmPlot.DrawPeaks(input, f)) { Height = 0.75 }));
        }

        if (Analysis.Picture.Whole.LowPa.Any(double.IsFinite))
        {
            blocks.Add(new PictureBlock(new Drawing("whole", Words.RecordTitle, WholeAlt(), Words.RecordCaption, f => RecordPlot.Draw(input, f)) { Height = 0.75 }));
        }

        return blocks;
    }

    public IReadOnlyList<Block> Ladder() => LadderPlot.CanDraw(input)
        ? [new PictureBlock(new Drawing("ladder", Words.LadderTitle, LadderAlt(), Words.LadderCaption, f => LadderPlot.Draw(input, f)) { Height = 0.8 })]
        : [];

    public IReadOnlyList<Block> Water()
    {
        var blocks = new List<Block>();
        if (Analysis.Energy is { DrawnJ: > 0 } energy)
        {
            blocks.Add(new PictureBlock(new Drawing("energy", Words.EnergyTitle, EnergyAlt(energy), Words.EnergyCaption, f => EnergyPlot.Draw(energy, f)) { Height = 0.8 }));
        }

        if (Analysis.BeatList.Count(b => b.Flow is not null) > 1)
        {
            blocks.Add(new PictureBlock(new Drawing("volumes", Words.VolumeTitle, VolumeAlt(), Words.VolumeCaption, f => RhythmPlot.DrawVolumes(input, f)) { Height = 0.7 }));
        }

        return blocks;
    }

    public IReadOnlyList<Block> Load()
    {
        var blocks = new List<Block>();
        if (LevelPlot.CanDraw(input))
        {
            blocks.Add(new PictureBlock(new Drawing("levels", Words.LevelTitle, LevelAlt(), Words.LevelCaption, f => LevelPlot.Draw(input, f))));
        }

        if (RainflowPlot.CanDraw(input))
        {
            blocks.Add(new PictureBlock(new Drawing("swings", Words.SwingTitle, SwingAlt(), Words.SwingCaption, f => RainflowPlot.Draw(input, f))));
        }

        return blocks;
    }

    private static string EnergyAlt(EnergySplit energy) =>
        "Where the energy of a mean beat goes: "
        + string.Join(", ", EnergyPlot.Steps(energy).Select(s => string.Create(
            System.Globalization.CultureInfo.InvariantCulture, $"{char.ToLowerInvariant(s.Name[0])}{s.Name[1..]} {100 * s.Joule / energy.DrawnJ:0} %"))) + ".";

    private string VolumeAlt()
    {
        double[] volumes = [.. Analysis.BeatList.Where(b => b.Flow is not null).Select(b => b.Flow!.DeliveredM3).Order()];
        return $"Water delivered by each of {Digits.Count(volumes.Length)} beats along the record: from{Amount(volumes[0])} to{Amount(volumes[^1])}, half of them under{Amount(volumes[volumes.Length / 2])}.";
    }

    private static string Amount(double volumeM3) => Show.Of(Kind.Volume, volumeM3) is { } amount ? " " + amount.Metric : " an unknown volume";

    private string LevelAlt() =>
        $"Share of the time the body stands at each pressure, from{Level("", Analysis.Pressure.SuctionMinPa)} to{Level("", Analysis.Pressure.PeakMaxPa)}. "
        + $"The pipe may bear{Level("", Analysis.Pipe.AllowablePa)} again and again; the ceiling is{Level("", Analysis.Pipe.CeilingPa)}.";

    private string SwingAlt() =>
        $"Swings of the pressure by size and middle: the largest spans{Level("", Analysis.Load?.Cycles.LargestRange)}. "
        + $"The pipe may bear peaks of{Level("", Analysis.Pipe.AllowablePa)} again and again.";

    private string ExcerptAlt() =>
        $"Curve of the pressure in the ram over a few beats. It leaps as the waste valve shuts{Level(" to", Analysis.Pressure.PeakMedianPa)}, "
        + $"stands while water is delivered{Level(" at", Analysis.Pressure.Delivery?.Value)}, falls{Level(" to", Analysis.Pressure.SuctionMinPa)} "
        + "in the recoil and stays low while the waste valve is open.";

    private string OverlayAlt() =>
        $"{Analysis.Picture.Overlay.Count} beats drawn over one another from the closure on, with the median beat as a bold line and a band that holds nine beats in ten.";

    private string IntervalAlt() =>
        $"Time from beat to beat along the record, {Analysis.BeatList.Count} beats: middle value{Seconds(Analysis.Beats.IntervalMedianS)}, "
        + $"nine in ten between{Seconds(Analysis.Beats.IntervalP05S)} and{Seconds(Analysis.Beats.IntervalP95S)}.";

    private string PeakAlt() =>
        $"Highest pressure of every beat along the record: usually{Level("", Analysis.Pressure.PeakMedianPa)}, at most{Level("", Analysis.Pressure.PeakMaxPa)}.";

    private string WholeAlt() =>
        $"The pressure over the whole record of {Show.Duration(Analysis.Input.DurationS)}, from{Level("", Analysis.Pressure.SuctionMinPa)} "
        + $"to{Level("", Analysis.Pressure.PeakMaxPa)}, with {Digits.Count(Analysis.Input.Gaps.Count)} gaps.";

    private string LadderAlt() =>
        $"Pressures on one scale: at rest{Level("", Analysis.Pressure.StaticPa)}, delivery{Level("", Analysis.Pressure.Delivery?.Value)}, "
        + $"highest peak{Level("", Analysis.Pressure.PeakMaxPa)}, the pipe may bear{Level("", Analysis.Pipe.AllowablePa)}, the pipe is rated{Level("", Analysis.Pipe.RatedPa)}.";

    private static string Level(string before, double? pascal) =>
        Show.Of(Kind.Pressure, pascal) is { } level ? $"{before} {level}" : " an unknown level";

    private static string Seconds(double? seconds) =>
        Show.Of(Kind.Time, seconds) is { } time ? " " + time.Metric : " an unknown time";
}
