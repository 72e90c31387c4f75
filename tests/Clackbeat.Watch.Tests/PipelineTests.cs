using Clackbeat.Signal.Analysis;
using Clackbeat.Watch.Figures;
using Clackbeat.Watch.Live;

namespace Clackbeat.Watch.Tests;

/// <summary>What goes to the page is what was measured: no spike, gap or beat is lost on the way, in whatever pieces samples come.</summary>
public class PipelineTests
{
    private static readonly (double[] TimesS, double[] PressuresPa) Samples = Rams.Samples(40);

    [Fact]
    public void Columns_keep_every_extreme_of_the_samples_they_stand_for()
    {
        LivePipeline pipeline = Fed(Samples, 40);
        (long column, int beat) = (long.MinValue, -1);
        LiveView view = pipeline.Look(ref column, ref beat);
        double columnS = view.ColumnS;
        for (int i = 0; i < view.Steps.Length / 2; i++)
        {
            double[] own =
            [
                .. Samples.TimesS.Zip(Samples.PressuresPa)
                    .Where(s => (long)Math.Floor(s.First / columnS) == view.FirstColumn + i).Select(s => s.Second),
            ];
            short[] steps = [view.Steps[2 * i], view.Steps[(2 * i) + 1]];
            Assert.Equal(pipeline.Scale.Of(own.Min()), steps.Min());
            Assert.Equal(pipeline.Scale.Of(own.Max()), steps.Max());
        }
    }

    [Fact]
    public void A_step_of_the_wire_is_finer_than_a_thousandth_of_the_sensors_span()
    {
        var scale = SignalScale.For(Rams.Site.Sensor);
        double spanPa = Rams.Site.Sensor.RangeHighPa - Rams.Site.Sensor.RangeLowPa;
        Assert.InRange(scale.StepPa, 0, spanPa / 1000);
        foreach (double pressurePa in new[] { Rams.Site.Sensor.RangeLowPa, 0, 4.4e5, Rams.Site.Sensor.RangeHighPa, -9e4 })
        {
            Assert.InRange(scale.LowPa + (scale.StepPa * scale.Of(pressurePa)) - pressurePa, -scale.StepPa, scale.StepPa);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(5000)]
    public void Beats_and_columns_do_not_depend_on_the_pieces_in_which_samples_come(int piece)
    {
        LiveView whole = ViewOf(Fed(Samples, 40));
        LiveView pieced = ViewOf(Fed(Samples, piece));
        Assert.Equal(whole.Steps, pieced.Steps);
        Assert.Equal(whole.Beats.Select(b => b.ClosureS), pieced.Beats.Select(b => b.ClosureS));
        Assert.Equal(whole.Beats.SelectMany(b => b.Steps), pieced.Beats.SelectMany(b => b.Steps));
    }

    [Fact]
    public void A_stretch_without_samples_is_a_gap_and_nothing_else_is()
    {
        const double fromS = 33, toS = 33.5;
        (double First, double Second)[] kept = [.. Samples.TimesS.Zip(Samples.PressuresPa).Where(s => s.First is < fromS or >= toS)];
        LiveView view = ViewOf(Fed(([.. kept.Select(s => s.First)], [.. kept.Select(s => s.Second)]), 40));
        double[] gapsS =
        [
            .. Enumerable.Range(0, view.Steps.Length / 2)
                .Where(i => view.Steps[2 * i] == SignalScale.Gap).Select(i => (view.FirstColumn + i) * view.ColumnS),
        ];
        Assert.Equal(fromS, gapsS.Min(), view.ColumnS);
        Assert.Equal(toS - view.ColumnS, gapsS.Max(), view.ColumnS);
        Assert.Equal((toS - fromS) / view.ColumnS, gapsS.Length, 1.0);
        Assert.Equal(toS - fromS, view.Health.GapS, 0.01);
    }

    [Fact]
    public void The_phases_of_a_beat_make_up_its_interval()
    {
        Assert.All(ViewOf(Fed(Samples, 40)).Beats, b => Assert.Equal(b.IntervalS, b.DeliveryS + b.RecoilS + b.OpenS + b.ClosingS, 1e-9));
    }

    [Fact]
    public void A_beats_curve_begins_before_the_closure_and_peaks_where_the_beat_peaks()
    {
        LivePipeline pipeline = Fed(Samples, 40);
        foreach (LiveBeat beat in ViewOf(pipeline).Beats)
        {
            int lead = (int)(LiveBeat.LeadShare * beat.IntervalS / beat.ColumnS);
            Assert.Equal(pipeline.Scale.Of(beat.PeakPa), beat.Steps.Skip(2 * lead).Max());
            Assert.Equal(beat.IntervalS * (1 + LiveBeat.LeadShare), beat.ColumnS * beat.Steps.Length / 2, 0.02 * beat.IntervalS);
        }
    }

    [Fact]
    public void Figures_of_the_window_are_those_of_its_samples_as_a_record()
    {
        LivePipeline pipeline = Fed(Samples, 40);
        FigureSet? made = null;
        new FigureWorker(pipeline, null) { Made = f => made = f }.Round();
        var analyser = new RamAnalyser(Rams.Site);
        analyser.Add(Samples.TimesS, Samples.PressuresPa);
        RamAnalysis record = analyser.Finish("record");
        Assert.Equal(record.Beats.Count, made!.Beats);
        Tile delivered = made.Tiles.Single(t => t.Id == "delivered");
        Assert.Equal(60_000 * record.Flow.DeliveredM3PerS!.Value.Value, double.Parse(delivered.Metric!.Value, System.Globalization.CultureInfo.InvariantCulture), 0.06);
        Assert.Equal(record.Diagnosis.Select(d => d.Condition), made.Findings.Select(f => f.Code));
        Assert.Equal((Judgement.Of(record), string.Join(' ', Judgement.ToDo(record))), (made.Standing, string.Join(' ', made.ToDo)));
    }

    [Fact]
    public void Figures_begin_anew_where_something_was_changed()
    {
        LivePipeline pipeline = Fed(Samples, 40);
        pipeline.BeginWindow();
        Assert.InRange(pipeline.Window().SpanS, 0, 0.01);
    }

    [Fact]
    public void A_clock_that_steps_back_hurts_nothing()
    {
        LivePipeline pipeline = Fed(Samples, 40);
        pipeline.Take([1.0, 2.0, Samples.TimesS[^1] + 0.001], [0, 0, 0]);
        Assert.Equal(Samples.TimesS[^1] + 0.001, ViewOf(pipeline).NewestS);
    }

    internal static LivePipeline Fed((double[] TimesS, double[] PressuresPa) samples, int piece)
    {
        var pipeline = new LivePipeline(Rams.Site, TimeProvider.System);
        for (int i = 0; i < samples.TimesS.Length; i += piece)
        {
            int count = Math.Min(piece, samples.TimesS.Length - i);
            pipeline.Take(samples.TimesS.AsSpan(i, count), samples.PressuresPa.AsSpan(i, count));
        }

        return pipeline;
    }

    private static LiveView ViewOf(LivePipeline pipeline)
    {
        (long column, int beat) = (long.MinValue, -1);
        return pipeline.Look(ref column, ref beat);
    }
}
