using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.Checks.Transients;

public class SeriesPipeChecks
{
    // Standing wave in two pipes in a row, head fixed at one end and flow stopped at the other: tan(ωL1/a1) tan(ωL2/a2) =
    // B2/B1 (Wylie and Streeter 1993, ch. 12). With equal wave times T: ω = atan √(B2/B1) / T. Bores 80 and 40 mm at one wave
    // speed: B2/B1 = 4, atan 2 = 1.10715, T = 10/1000: ω = 110.715 rad/s, period 56.751 ms. A pipe of one bore: 4·20/1000 = 80 ms.
    [Fact(DisplayName = "Two reaches of 80 and 40 mm ring at 56.75 ms, one of constant bore at 80 ms")]
    public void RingOfTwoReaches()
    {
        var two = new SeriesPipe([new PipeReach(10, 0.08, 1000), new PipeReach(10, 0.04, 1000)]);
        Approximately.Equal(0.056751, two.RingPeriodS, 1e-4);
        Approximately.Equal(0.080, new SeriesPipe([new PipeReach(20, 0.05, 1000)]).RingPeriodS, 1e-9);
        Approximately.Equal(0.080, new SeriesPipe([new PipeReach(7, 0.05, 1000), new PipeReach(13, 0.05, 1000)]).RingPeriodS, 1e-9);
    }

    // The same by hand for a pipe that widens, B2/B1 = 1/4: atan 0.5 = 0.463648, period 2π·0.01/0.463648 = 135.516 ms.
    [Fact(DisplayName = "The same reaches the other way round ring at 135.5 ms")]
    public void RingOfAWideningPipe() => Approximately.Equal(
        0.135516, new SeriesPipe([new PipeReach(10, 0.04, 1000), new PipeReach(10, 0.08, 1000)]).RingPeriodS, 1e-4);

    // By hand: 12 m of 60 mm at 1200 m/s and 18 m of 50 mm at 400 m/s. A1 = 2.82743e-3, A2 = 1.96350e-3 m²:
    // Σ L/A = 4244.13 + 9167.32 = 13 411.45 1/m; Σ 2L/a = 0.02 + 0.09 = 0.11 s; L/Σ(L/a) = 30/0.055 = 545.45 m/s;
    // B2 = 400/(9.80665·1.9635e-3) = 20 773.5 s/m²: 2 L/s stopped knocks 41.547 m.
    [Fact(DisplayName = "Inertia, wave time and knock of 12 m of steel before 18 m of PE")]
    public void Totals()
    {
        var pipe = new SeriesPipe([new PipeReach(12, 0.06, 1200), new PipeReach(18, 0.05, 400)]);
        Approximately.Equal(13_411.45, pipe.InertiaPerM, 1e-5);
        Approximately.Equal(0.11, pipe.PipePeriodS, 1e-12);
        Approximately.Equal(545.4545, pipe.MeanWaveSpeedMPerS, 1e-6);
        Approximately.Equal(41.547, pipe.KnockHeadM(0.002), 1e-4);
    }
}
