using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Tuning.Tests;

public class TrialDoubtTests
{
    // 18 m of lift are 176 kPa (999.5 kg/m³ × 9.80665 m/s² × 18 m).
    private static readonly RamSite Site = new()
    {
        Name = "a ram of the tests",
        Supply = new Supply { HeadM = 3, WaterTemperatureC = 12 },
        DrivePipe = new DrivePipe { Material = PipeMaterial.PvcU, LengthM = 12, BoreM = 0.0409, WallM = 0.00368, WaveSpeedMPerS = 440 },
        Delivery = new Delivery { HeadM = 18 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    [Fact]
    public void A_trial_of_this_ram_is_not_doubted()
    {
        Assert.Empty(Doubts(Trials.Empty(), With(190e3, 439)));
        Assert.Empty(Doubts(Trials.Empty().With(With(190e3, 439)), With(194e3, 432)));

        // Half as much water again: the main's 14 kPa may become 31 kPa.
        Assert.Empty(Doubts(Trials.Empty().With(With(190e3, 439)), With(207e3, 439, 1.5e-4)));
        Assert.NotEmpty(Doubts(Trials.Empty().With(With(190e3, 439)), With(207e3, 439)));
    }

    [Theory]
    // Plateaus and wave speeds of rams of an independent model: PE 155 kPa, 309 m/s; steel
    // 207 kPa, 1253 m/s and 369 kPa, 1268 m/s; PVC with air 184 kPa, 185 m/s.
    [InlineData(155e3, 309, TrialDoubtKind.BelowLift)]
    [InlineData(207e3, 1253, TrialDoubtKind.FasterThanPipe)]
    [InlineData(369e3, 1268, TrialDoubtKind.FarAboveLift)]
    [InlineData(184e3, 185, TrialDoubtKind.SlowerThanPipe)]
    public void A_first_trial_is_held_against_the_site_file(double plateauPa, double speed, TrialDoubtKind kind) =>
        Assert.Equal(kind, Doubts(Trials.Empty(), With(plateauPa, speed))[0].Kind);

    [Theory]
    [InlineData(155e3, 439, TrialDoubtKind.OtherPlateau)]
    [InlineData(190e3, 1253, TrialDoubtKind.OtherWaveSpeed)]
    public void A_later_trial_is_held_against_the_first(double plateauPa, double speed, TrialDoubtKind kind) =>
        Assert.Equal(kind, Doubts(Trials.Empty().With(With(190e3, 439)), With(plateauPa, speed))[0].Kind);

    [Fact]
    public void A_trial_whose_beats_do_not_follow_the_pipe_is_doubted_where_another_did()
    {
        Trial beats = With(190e3, 439) with { Works = false, Lack = TrialLack.NoFlow, DeliveredM3PerS = null };
        Assert.Equal(TrialDoubtKind.UnlikePipe, Assert.Single(Doubts(Trials.Empty().With(With(190e3, 439)), beats)).Kind);
        Trial stands = beats with { Lack = TrialLack.StoppedOpen, DeliveryPa = null, WaveSpeedMPerS = null };
        Assert.Empty(Doubts(Trials.Empty().With(With(190e3, 439)), stands));
    }

    [Fact]
    public void A_recording_that_carries_another_rams_name_is_doubted() => Assert.Equal(
        "the neighbour's", TrialDoubts.Of(Trials.Empty(), Site, With(190e3, 439), "the neighbour's")[0].Name);

    [Fact]
    public void A_recording_is_known_again_cut_or_exported_and_another_minute_of_the_ram_is_not()
    {
        BeatPrint whole = Print(new Random(1), 60);
        // Cut at both ends, and rounded as a table's digits round.
        BeatPrint cut = new([.. whole.IntervalsMs.Skip(9).Take(30).Select(v => v + 0.1)], [.. whole.PeaksKpa.Skip(9).Take(30).Select(v => v - 0.01)]);
        Assert.True(whole.IsOfSameRecording(cut));
        Assert.True(cut.IsOfSameRecording(whole));
        Assert.False(whole.IsOfSameRecording(Print(new Random(2), 60)));
        Assert.False(whole.IsOfSameRecording(BeatPrint.Empty));

        TuningSession session = Trials.Empty().With(With(190e3, 439) with { Print = whole });
        TrialDoubt doubt = Assert.Single(Doubts(session, With(190e3, 439) with { Print = cut }));
        Assert.True(doubt.IsFinal);
        Assert.Equal(0, doubt.Trial);
    }

    // Intervals that scatter by 2 ms and peaks by 2 kPa, as on a smooth ram.
    private static BeatPrint Print(Random random, int beats) => new(
        [.. Enumerable.Range(0, beats).Select(_ => Math.Round(1260 + (4 * random.NextDouble()), 1))],
        [.. Enumerable.Range(0, beats).Select(_ => Math.Round(410 + (4 * random.NextDouble()), 2))]);

    private static IReadOnlyList<TrialDoubt> Doubts(TuningSession session, Trial trial) => TrialDoubts.Of(session, Site, trial, null);

    private static Trial With(double plateauPa, double speed, double flowM3PerS = 1e-4) => Trials.Of(8, flowM3PerS, 0.5, 3e5, new Random(3), 0.01) with
    {
        DeliveryPa = new Figure(plateauPa, 5e3),
        WaveSpeedMPerS = new Figure(speed, 0.034 * speed),
    };
}
