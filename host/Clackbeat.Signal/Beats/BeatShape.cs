using System.Numerics.Tensors;
using Clackbeat.Signal.Traces;

namespace Clackbeat.Signal.Beats;

/// <summary>Measures one beat: instants of its phases, plateau, peak and suction.</summary>
internal static class BeatShape
{
    /// <summary>Works out what the delivery after a closure tells of it: its plateau, and from that its instant.</summary>
    public static void Settle(SampleBuffer samples, Closure closure, RamScale scale, BeatLevels levels)
    {
        // Levels are learnt anew as the record goes on: what closed above the old threshold may lie wholly under the new one.
        closure.PlateauPa = Medians.OfReaching(samples.PressuresPa(closure.First, closure.LastAbove + 1), levels.ThresholdPa);
        closure.TimeS = ClosureTimeS(samples, closure, scale, levels);
    }

    /// <summary>
    /// The instant the waste valve shuts [s]. The body reaches the delivery level just before the plug seats, and the
    /// spike of the delivery valve's inertia stands just after it; gas in the body and the sensor's response delay the
    /// spike but hardly the crossing, so the instant is placed a quarter of the way from crossing to spike.
    /// </summary>
    private static double ClosureTimeS(SampleBuffer samples, Closure closure, RamScale scale, BeatLevels levels)
    {
        long first = closure.First;
        double crossingS = CrossingS(samples, first, closure.PlateauPa, levels.OpenPa, closure.LastAbove);

        // The spike stands before the first wave can come back from the intake.
        long spike = first;
        double latestS = samples.TimeS(first) + (0.25 * scale.PipePeriodS);
        while (spike < closure.LastAbove
            && samples.PressurePa(spike + 1) > samples.PressurePa(spike)
            && samples.TimeS(spike + 1) <= latestS)
        {
            spike++;
        }

        // A sample that comes later than that tells nothing of the spike.
        return crossingS + (0.25 * Math.Clamp(samples.TimeS(spike) - crossingS, 0, 0.25 * scale.PipePeriodS));
    }

    /// <summary>Measures the beat between two settled closures.</summary>
    public static Beat Measure(SampleBuffer samples, Closure closure, Closure next, BeatLevels levels, int number)
    {
        double closureS = closure.TimeS!.Value;
        double nextS = next.TimeS!.Value;
        long end = samples.FirstAtOrAfter(nextS);
        ReadOnlySpan<double> pressuresPa = samples.PressuresPa(closure.First, end);
        double deliveryEndS = FallS(samples, closure.LastAbove, levels.ThresholdPa);
        (double openStartS, double openStartPa) = OpenStart(samples, closure.LastAbove + 1, next.First, levels, deliveryEndS);
        var peak = Peak.Of(samples.PressuresPa(closure.First - 1, closure.LastAbove + 2));
        return new Beat
        {
            Index = number,
            ClosureS = closureS,
            NextClosureS = nextS,
            DeliveryEndS = Math.Clamp(deliveryEndS, closureS, nextS),
            OpenStartS = Math.Clamp(openStartS, closureS, nextS),
            PeakPa = peak.LargestPa,
            PeakEstimatePa = peak.EstimatePa,
            PeakUncertaintyPa = peak.HalfWidthPa,
            HasGap = closure.HasGap,
            DeliveryPa = DeliveryMeanPa(samples, closure, levels),
            SuctionPa = TensorPrimitives.Min(pressuresPa),
            OpenStartPa = openStartPa,
        };
    }

    /// <summary>
    /// When the body reaches the delivery level [s]. Nine tenths of the jump count as reached, since the plateau itself
    /// wavers; within the sampling step that holds the rise, the middle of what is left of it is the best guess.
    /// </summary>
    private static double CrossingS(SampleBuffer samples, long first, double plateauPa, double openPa, long last)
    {
        double reachedPa = openPa + (0.9 * (plateauPa - openPa));
        long upper = samples.PressurePa(first) >= reachedPa ? first : first + 1;
        if (upper > last || samples.PressurePa(upper) < reachedPa || upper - 1 < samples.First)
        {
            return samples.TimeS(first);
        }

        return Interpolated(samples, upper - 1, 0.5 * (samples.PressurePa(upper - 1) + plateauPa));
    }

    private static double FallS(SampleBuffer samples, long lastAbove, double levelPa) =>
        lastAbove + 1 < samples.End && samples.PressurePa(lastAbove + 1) < levelPa
            ? Interpolated(samples, lastAbove, levelPa)
            : samples.TimeS(lastAbove);

    private static double Interpolated(SampleBuffer samples, long index, double levelPa)
    {
        (double t0, double t1) = (samples.TimeS(index), samples.TimeS(index + 1));
        (double p0, double p1) = (samples.PressurePa(index), samples.PressurePa(index + 1));
        return t0 + ((t1 - t0) * Math.Clamp((levelPa - p0) / (p1 - p0), 0, 1));
    }

    /// <summary>
    /// Mean pressure while the delivery valve stands open. What lies a tenth under the plateau (or beyond the noise) is
    /// left out: water flows up only while the body stands at the air vessel's pressure.
    /// </summary>
    private static double DeliveryMeanPa(SampleBuffer samples, Closure closure, BeatLevels levels)
    {
        double floorPa = closure.PlateauPa - Math.Max(0.1 * (closure.PlateauPa - levels.OpenPa), 3 * levels.OpenDeviationPa);
        (double sum, int count) = (0, 0);
        foreach (double pressurePa in samples.PressuresPa(closure.First, closure.LastAbove + 1))
        {
            if (pressurePa >= floorPa)
            {
                sum += pressurePa;
                count++;
            }
        }

        return sum / count;
    }

    /// <summary>
    /// Where the open phase begins, and the pressure there. The recoil's disturbance lies in the first half of the low
    /// stretch; the open phase begins where the pressure last came back to that half's median.
    /// </summary>
    private static (double TimeS, double PressurePa) OpenStart(
        SampleBuffer samples, long from, long to, BeatLevels levels, double deliveryEndS)
    {
        long middle = samples.FirstAtOrAfter(0.5 * (samples.TimeS(from) + samples.TimeS(to)));
        ReadOnlySpan<double> half = samples.PressuresPa(from, middle);
        if (half.Length == 0)
        {
            return (deliveryEndS, levels.OpenPa);
        }

        double medianPa = Medians.Of(half);
        double bandPa = (0.05 * levels.JumpPa) + (3 * levels.OpenDeviationPa);
        long start = middle;
        while (start > from && Math.Abs(samples.PressurePa(start - 1) - medianPa) <= bandPa)
        {
            start--;
        }

        // The column is nearly at rest here, so this level is the sensor's zero plus almost nothing.
        double restS = samples.TimeS(start) + (0.1 * (samples.TimeS(to) - samples.TimeS(start)));
        double restPa = Medians.Of(samples.PressuresPa(start, Math.Max(samples.FirstAtOrAfter(restS), start + 1)));
        return (samples.TimeS(start), restPa);
    }
}
