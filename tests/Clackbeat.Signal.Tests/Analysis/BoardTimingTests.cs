using Clackbeat.Records.Samples;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;

namespace Clackbeat.Signal.Tests.Analysis;

/// <summary>A board that tells the instants of its samples less well makes the beat rate less certain.</summary>
public sealed class BoardTimingTests
{
    // Three beats of one second with hardly any scatter, sampled every millisecond. By hand (JCGM 100): a closure within half a step is
    // 0.5 ms/√3 = 0.289 ms; the mean of three intervals hangs on two closures, √2 × 0.289/3 = 0.136 ms; the clock's 50 parts in a million
    // are 0.029 ms. A conversion of 1.9 ms with a clock reading of 0.1 ms adds 2 ms/√3 = 1.155 ms and a jitter of 0.5 ms its own:
    // √(0.289² + 1.155² + 0.5²) = 1.291 ms, √2 × 1.291/3 = 0.609 ms. Twice the root of squares, times 60: 0.0167 and 0.0731 a minute.
    [Fact]
    public void The_rate_s_uncertainty_is_that_of_its_closures_instants()
    {
        Assert.Equal(0.0167, UncertaintyOf(null), 0.0002);
        Assert.Equal(0.0731, UncertaintyOf(new BoardTiming(1.9e-3, 0.1e-3, 0.5e-3)), 0.0002);
    }

    [Theory]
    [InlineData(200e-6, 7e-6, 5e-6, 400e-6, 7e-6, 5e-6)]
    [InlineData(200e-6, 7e-6, 5e-6, 200e-6, 90e-6, 5e-6)]
    [InlineData(200e-6, 7e-6, 5e-6, 200e-6, 7e-6, 150e-6)]
    public void A_worse_answer_of_the_bench_widens_it(double conversionS, double clockS, double jitterS, double worseConversionS, double worseClockS, double worseJitterS) =>
        Assert.True(
            UncertaintyOf(new BoardTiming(worseConversionS, worseClockS, worseJitterS)) > 1.02 * UncertaintyOf(new BoardTiming(conversionS, clockS, jitterS)));

    [Fact]
    public void The_whole_analysis_of_a_record_takes_the_boards_answer()
    {
        (double[] timesS, double[] pressuresPa, List<VirtualRam.Truth.VirtualBeat> _) = Rams.Record(Rams.Steel, 12);
        double U(BoardTiming? board)
        {
            var analyser = new RamAnalyser(Rams.Steel, measuresFlow: false);
            analyser.Add(timesS, pressuresPa);
            return analyser.Finish("made up", 0, board).Beats.RatePerMin!.Value.U;
        }

        Assert.True(U(new BoardTiming(20e-3, 1e-3, 5e-3)) > 1.5 * U(new BoardTiming(150e-6, 7e-6, 5e-6)));
        Assert.True(U(new BoardTiming(150e-6, 7e-6, 5e-6)) >= U(null));
    }

    private static double UncertaintyOf(BoardTiming? board) =>
        Summaries.Rhythm([.. Enumerable.Range(0, 3).Select(Beat)], 1e-3, Signal.Figures.InstantAccuracy.StandardS(board)).RatePerMin!.Value.U;

    private static Beat Beat(int index) => new()
    {
        Index = index,
        ClosureS = index,
        NextClosureS = index + 1,
        DeliveryEndS = index + 0.2,
        OpenStartS = index + 0.3,
        PeakPa = 4e5,
        PeakEstimatePa = 4e5,
        PeakUncertaintyPa = 0,
        DeliveryPa = 2e5,
        SuctionPa = 0,
        OpenStartPa = 1e4,
    };
}
