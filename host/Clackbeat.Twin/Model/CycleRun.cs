using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Solver;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Twin.Model;

/// <summary>Runs a ram from an open waste valve until it repeats itself, and takes the mean of the beats that follow.</summary>
public static class CycleRun
{
    // The column forgets its start in a beat or two, since the vessel's head stands. Lively rams alternate between two beats.
    private const int WarmUpBeats = 3;
    private const int Beats = 4;

    // A vessel whose air springs swings against the main for some beats more.
    private const int MostWarmUpOfVessel = 12;

    // Two beats in a row within this share of each other, in interval and in volumes, are as good as four.
    private const int FewestBeats = 2;
    private const double Alike = 3e-4;

    // Coarse, since only ratios of two runs count: errors of the step cancel like the model's own.
    private const double StepS = 4e-4;
    private const int Reaches = 100;

    // A beat takes no longer than this over what is usual, or the ram stands.
    private const double PatienceOverUsual = 3;
    private const double BeforeShare = 0.15;

    /// <summary>The mean beat; null when the ram comes to a stop.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="usualIntervalS">A usual interval [s]; ends the wait for a ram that stands.</param>
    /// <param name="cancellation">Ends the work early.</param>
    public static Cycle? Of(RamParameters ram, double usualIntervalS, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(ram);
        RamEngine engine = Engine(ram);
        var watch = new BeatWatch(engine);
        var beats = new List<VirtualBeat>();
        var heads = new List<double>();
        var swings = new List<double>();
        (double Low, double High) vessel = (double.MaxValue, double.MinValue);
        int most = Beats + (ram.DeliveryMain.RunningM3PerS > 0 ? MostWarmUpOfVessel : WarmUpBeats);
        double started = engine.TimeS;
        double lastS = started;
        while (beats.Count < most && !IsSteady(beats))
        {
            engine.Step();
            heads.Add(engine.BodyHeadM);
            vessel = (Math.Min(vessel.Low, engine.VesselHeadM), Math.Max(vessel.High, engine.VesselHeadM));
            if (watch.Look() is { } beat)
            {
                beats.Add(beat);
                swings.Add(vessel.High - vessel.Low);
                vessel = (double.MaxValue, double.MinValue);
                lastS = engine.TimeS;
                cancellation.ThrowIfCancellationRequested();
            }
            else if (engine.TimeS - lastS > (beats.Count == 0 ? 2 : 1) * PatienceOverUsual * usualIntervalS)
            {
                return null;
            }
        }

        int from = Math.Max(WarmUpBeats, beats.Count - Beats);
        return Mean(beats[from..], heads, started, engine.StepS, ram.Water.DensityKgPerM3 * Constants.GravityMPerS2) with
        {
            VesselSwingM = swings[from..].Average(),
        };
    }

    /// <summary>The running twin at its start: waste valve open, water at rest.</summary>
    /// <param name="ram">The ram.</param>
    public static RamEngine Engine(RamParameters ram)
    {
        ArgumentNullException.ThrowIfNull(ram);
        var engine = new RamEngine(ram with { LongestStepS = StepS, MostReaches = Reaches, BeatScatter = 0 }, Fault.None, 1);
        engine.StartOpen();
        return engine;
    }

    private static bool IsSteady(List<VirtualBeat> beats)
    {
        static bool Near(double a, double b, double of) => Math.Abs(a - b) <= Alike * of;
        return beats.Count >= WarmUpBeats + FewestBeats && beats[^1] is var a && beats[^2] is var b
            && Near(a.IntervalS, b.IntervalS, a.IntervalS)
            && Near(a.DeliveredM3, b.DeliveredM3, a.WasteM3)
            && Near(a.WasteM3, b.WasteM3, a.WasteM3);
    }

    private static Cycle Mean(List<VirtualBeat> beats, List<double> heads, double startedS, double stepS, double weight)
    {
        double intervalS = beats.Average(b => b.IntervalS);
        int before = (int)(BeforeShare * intervalS / stepS);
        int count = before + (int)(intervalS / stepS);
        double[] curve = new double[count];
        foreach (VirtualBeat beat in beats)
        {
            int closure = (int)Math.Round((beat.ClosureS - startedS) / stepS);
            for (int i = 0; i < count; i++)
            {
                curve[i] += heads[Math.Clamp(closure - before + i, 0, heads.Count - 1)] / beats.Count;
            }
        }

        return new Cycle
        {
            IntervalS = intervalS,
            ClosingVelocityMPerS = beats.Average(b => b.ClosingVelocityMPerS),
            WasteM3 = beats.Average(b => b.WasteM3),
            DeliveredM3 = beats.Average(b => b.DeliveredM3),
            PeakM = beats.Average(b => b.PeakPa) / weight,
            SuctionM = beats.Average(b => b.SuctionPa) / weight,
            PlateauM = beats.Average(b => b.PlateauPa) / weight,
            Head = new HeadCurve(-before * stepS, stepS, curve),
        };
    }
}
