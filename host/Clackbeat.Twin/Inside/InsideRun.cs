using Clackbeat.Twin.Fitting;
using Clackbeat.Twin.Model;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Twin.Inside;

/// <summary>Looks into a running twin for one beat.</summary>
public static class InsideRun
{
    private const int WarmUpBeats = 4;
    private const int Places = 33;

    // Enough to see a wave run through the pipe: some dozen frames a pipe period, as far as a page can carry them.
    private const int FramesAPeriod = 16;
    private const int FewestFrames = 240;
    private const int MostFrames = 720;

    /// <summary>The beat; null where the twin comes to a stop.</summary>
    /// <param name="twin">The twin.</param>
    public static InsideBeat? Of(FittedTwin twin)
    {
        ArgumentNullException.ThrowIfNull(twin);
        RamParameters ram = twin.Frame.Ram(twin.Values);
        RamEngine engine = CycleRun.Engine(ram);
        var watch = new BeatWatch(engine);
        int seen = 0;
        double giveUpS = engine.TimeS + (4 * (WarmUpBeats + 2) * twin.Measured.IntervalS);
        while (seen < WarmUpBeats)
        {
            engine.Step();
            seen += watch.Look() is null ? 0 : 1;
            if (engine.TimeS > giveUpS)
            {
                return null;
            }
        }

        var frames = new List<InsideFrame>();
        double periodS = ram.Sections.Sum(s => 2 * s.LengthM / s.WaveSpeedMPerS);
        int wanted = (int)Math.Clamp(FramesAPeriod * twin.Cycle.IntervalS / periodS, FewestFrames, MostFrames);
        int every = Math.Max(1, (int)(twin.Cycle.IntervalS / wanted / engine.StepS));
        double vesselM3 = 0;
        VirtualBeat? ended = null;
        for (int step = 0; ended is null; step++)
        {
            if (step % every == 0)
            {
                frames.Add(Look(engine, ram, vesselM3));
            }

            engine.Step();
            vesselM3 += engine.StepS * engine.DeliveryFlowM3PerS;
            ended = watch.Look();
        }

        double stepS = every * engine.StepS;
        double main = vesselM3 / ended.IntervalS;
        return new InsideBeat
        {
            StepS = stepS,
            LengthM = ram.Sections.Sum(s => s.LengthM),
            SupplyHeadM = ram.Supply.HeadM,
            VesselHeadM = ram.DeliveryMain.OutletHeadM,
            MainM3PerS = main,
            PipePeriodS = periodS,
            Frames = [.. frames.Select((f, i) => f with { VesselM3 = f.VesselM3 - (main * i * stepS) })],
            MeasuredM = Measured(twin, frames.Count, stepS),
        };
    }

    private static InsideFrame Look(RamEngine engine, RamParameters ram, double vesselM3)
    {
        (double HeadM, double VelocityMPerS)[] along = [.. Enumerable.Range(0, Places).Select(i => engine.Along(i / (Places - 1.0)))];
        double open = ram.WasteValve.RestLiftM / ram.WasteValve.TravelM;
        return new InsideFrame(
            [.. along.Select(a => a.HeadM)], [.. along.Select(a => a.VelocityMPerS)], engine.WasteOpening / open, engine.DeliveryOpening,
            engine.WasteFlowM3PerS, engine.DeliveryFlowM3PerS, vesselM3);
    }

    // The measured beat has its time 0 where the knock is half way up; the twin says how long after the closure that is.
    private static double[] Measured(FittedTwin twin, int frames, double stepS)
    {
        HeadCurve own = twin.Cycle.Head;
        double laterS = own.StartS - Alignment.Aligned(own, twin.Cycle.PlateauM ?? twin.Measured.PlateauM).StartS;
        HeadCurve measured = twin.Measured.Head;
        double endS = measured.StartS + (measured.StepS * (measured.HeadM.Count - 1));
        return [.. Enumerable.Range(0, frames).Select(i =>
        {
            double t = (i * stepS) - laterS;
            return measured.At(t > endS ? t - twin.Measured.IntervalS : t);
        })];
    }
}
