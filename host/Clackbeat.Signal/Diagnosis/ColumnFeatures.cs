using Clackbeat.Signal.Figures;
using Clackbeat.Signal.Flow;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// Features of the moving water: what the fit of the drive pipe found, and the velocity at the body through the typical beat.
/// They say of one record alone what a healthy beat of this very pipe would have to be, so they help most without a baseline.
/// </summary>
internal sealed class ColumnFeatures(RamSite site, SiteHydraulics hydraulics, FlowResult flow, FlowFeatures found)
{
    // Between the foot of the fall and half the jump, and long enough to be no mere slope.
    private const double HoldFrom = 0.12;
    private const double HoldTo = 0.5;
    private const int LeastHold = 4;
    private const double LongestHold = 2;

    // The mean of so long a stretch is no noise.
    private const double PeakWidthS = 0.005;
    private const int Rounds = 3;

    /// <summary>The features; null when the flows were withheld.</summary>
    public static ColumnFeatures? Of(RamSite site, SiteHydraulics hydraulics, FlowResult? flow) =>
        flow is { Features: { } found, Flow.ClosingVelocityMPerS.Value: > 0.05 } ? new ColumnFeatures(site, hydraulics, flow, found) : null;

    private double ClosingMPerS => flow.Flow.ClosingVelocityMPerS!.Value.Value;

    /// <summary>Measures them.</summary>
    /// <param name="typical">The median beat, time 0 at its closure.</param>
    /// <param name="endS">End of its delivery [s].</param>
    /// <param name="restPa">What the sensor reads with the waste valve open and the water at rest [Pa].</param>
    /// <param name="jumpPa">From the open level to the delivery plateau [Pa].</param>
    public IEnumerable<(Feature Feature, double Value)> Measure(TraceCurve typical, double endS, double restPa, double jumpPa)
    {
        double surgeM = hydraulics.WaveSpeedMPerS * ClosingMPerS / Hydraulics.Water.Constants.GravityMPerS2;
        yield return (Feature.ClosingSpeed, Math.Log(surgeM / site.Delivery.HeadM));
        yield return (Feature.EndVelocity, (found.VelocityAtDeliveryEnd - found.ExpectedAtDeliveryEnd) / ClosingMPerS);
        yield return (Feature.PipeLoss, Math.Log(found.LossFactor));
        yield return (Feature.ValveLoss, Math.Log(2 * Hydraulics.Water.Constants.GravityMPerS2 * found.ValveConstant));
        if (flow.DrivePipe.WaveSpeedMPerS is { } wave)
        {
            yield return (Feature.WaveSpeed, Math.Log(wave.Value / hydraulics.WaveSpeedMPerS));
        }

        if (flow.Efficiency.DAubuisson is { Value: > 0 } yield1)
        {
            yield return (Feature.Yield, Math.Log(yield1.Value));
        }

        foreach ((Feature, double) feature in Along(typical, endS, restPa, jumpPa))
        {
            yield return feature;
        }
    }

    private IEnumerable<(Feature Feature, double Value)> Along(TraceCurve typical, double endS, double restPa, double jumpPa)
    {
        double metre = hydraulics.PressurePa(1);
        double[] times = [.. typical.TimeS];
        double[] heads = [.. typical.PressurePa.Select(p => (p / metre) + site.Sensor.HeightM)];
        int closure = Array.FindIndex(times, t => t >= 0);
        if (closure < 8 || times.Length - closure < 16)
        {
            yield break;
        }

        ColumnModel plain = SiteColumn.Of(site, hydraulics);
        double[] velocity = Velocities(times, heads, closure, plain);
        double lastS = times[^1];
        double back = Lowest(times, velocity, endS, endS + (0.4 * (lastS - endS)));
        yield return (Feature.BackFlow, back / ClosingMPerS);

        var shut = new ShutValves(
            times, [.. typical.PressurePa.Select(p => (p - restPa) / jumpPa)], [.. velocity.Select(v => v / ClosingMPerS)],
            flow.DrivePipe.PipePeriodS ?? hydraulics.PipePeriodS);
        foreach ((Feature, double) feature in shut.Measure(endS))
        {
            yield return feature;
        }

        if (Holding(typical, velocity, endS, restPa, jumpPa) is { } holding)
        {
            yield return (Feature.HoldVelocity, holding / ClosingMPerS);
        }

        (double head, double square) = (0, 0);
        for (int i = closure + 1; i < times.Length; i++)
        {
            double stepS = times[i] - times[i - 1];
            head += 0.5 * (heads[i] + heads[i - 1]) * stepS;
            square += velocity[i] * Math.Abs(velocity[i]) * stepS;
        }

        double lengthS = lastS - times[closure];
        double restM = (restPa / metre) + site.Sensor.HeightM;
        yield return (Feature.HeadBalance, ((head / lengthS) - restM + (plain.Loss * square / lengthS)) / site.Supply.HeadM);
    }

    /// <summary>Velocity at the body through the beat; the start is chosen so that the closing velocity is the fit's.</summary>
    private double[] Velocities(double[] times, double[] heads, int closure, ColumnModel plain)
    {
        ColumnModel column = (plain with
        {
            WaveSpeedMPerS = flow.DrivePipe.PipePeriodS is { } periodS ? 2 * site.DrivePipe.LengthM / periodS : plain.WaveSpeedMPerS,
            SupplyHeadM = found.SupplyHeadM,
            BiasM = flow.DrivePipe.SensorBiasPa.GetValueOrDefault() / hydraulics.PressurePa(1),
        }).WithLoss(found.LossFactor);
        double[] velocity = new double[times.Length];
        double start = ClosingMPerS;
        for (int round = 0; round < Rounds; round++)
        {
            ColumnInversion.Run(times, heads, column, start, velocity);
            double before = velocity.Take(closure - 2).Max();
            start += ClosingMPerS - before;
        }

        return velocity;
    }

    /// <summary>Mean velocity at the body while the pressure hangs half-way after the delivery, both valves shut; null when it doesn't hang.</summary>
    private double? Holding(TraceCurve typical, double[] velocity, double endS, double restPa, double jumpPa)
    {
        (double sum, int count) = (0, 0);
        for (int i = 0; i < velocity.Length && typical.TimeS[i] < endS + (LongestHold * hydraulics.PipePeriodS); i++)
        {
            double share = (typical.PressurePa[i] - restPa) / jumpPa;
            if (typical.TimeS[i] > endS && share is > HoldFrom and < HoldTo)
            {
                sum += velocity[i];
                count++;
            }
        }

        return count >= LeastHold ? sum / count : null;
    }

    private static double Lowest(double[] times, double[] values, double fromS, double toS)
    {
        double lowest = 0;
        for (int i = 0; i < times.Length && times[i] < toS; i++)
        {
            if (times[i] < fromS)
            {
                continue;
            }

            (double sum, int count) = (0, 0);
            for (int q = i; q < times.Length && times[q] < times[i] + PeakWidthS; q++)
            {
                sum += values[q];
                count++;
            }

            lowest = Math.Min(lowest, sum / count);
        }

        return lowest;
    }
}
