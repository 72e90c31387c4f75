using Clackbeat.Hydraulics.Water;
using Clackbeat.Signal.Figures;
using Clackbeat.Twin.Fitting;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Changes;

/// <summary>What the twin's make adds to the uncertainty of a ratio: chosen on virtual rams 7000 to 7011 (docs/twin.md).</summary>
internal static class Discrepancy
{
    private const double RateFloor = 0.02;
    private const double FlowFloor = 0.02;
    private const double PeakFloor = 0.05;
    private const double PerChange = 0.1;

    // Of the delivered flow where a beat holds only a step or two (docs/flow-method.md, rams never looked at).
    private const double PerNearness = 0.15;
    private const double MostShare = 0.9;

    // Of valves without an open stop, by the rams that failed (docs/twin.md).
    private const double RateOfFlap = 0.35;
    private const double FlowOfSoftSpring = 0.25;

    private const double TwinWeight = 2.0 / 3;

    /// <summary>Standard uncertainty of the vessel's swing, as a share: by the gas's exponent, between 1 and 1.4, and the main's own inertia.</summary>
    internal const double SwingShare = 0.1;

    /// <summary>A figure of the twin that no measured one stands beside, as a share.</summary>
    private const double AloneShare = 0.15;

    /// <summary>
    /// Standard uncertainty of a wave speed by material and wall alone, as a share: moduli of plastics differ by some 10 % from maker to
    /// maker, and the wave speed goes with their root.
    /// </summary>
    internal const double WaveSpeedByTheory = 0.05;

    private static readonly Ratios Floors = new(RateFloor, FlowFloor, FlowFloor, PeakFloor);

    /// <summary>
    /// Standard uncertainties as shares: by the parameters, and by the make, which grows with the change. A twin that misses its record by
    /// more than was allowed for misses a change by as much more.
    /// </summary>
    /// <param name="ratios">Figures after the change over those before.</param>
    /// <param name="byParameters">By the parameters.</param>
    /// <param name="birge">The twin's misfit over what is expected of it; 1 or more.</param>
    /// <param name="nearerToNothing">By how much the change brings the ram nearer to delivering nothing, see <see cref="Nearness"/>.</param>
    internal static Ratios Of(Ratios ratios, Ratios byParameters, double birge, double nearerToNothing)
    {
        Ratios all = byParameters.With(
            ratios, (p, r, floor) => Math.Sqrt((p * p) + (birge * Math.Pow(floor + (PerChange * Math.Abs(Math.Log(r))), 2))), Floors);
        return all with { Delivered = Math.Sqrt((all.Delivered * all.Delivered) + Math.Pow(PerNearness * Math.Max(0, nearerToNothing), 2)) };
    }

    /// <summary>What a waste valve without an open stop adds to the standard uncertainties of ratios, as shares.</summary>
    /// <param name="ratios">Their standard uncertainties.</param>
    /// <param name="twin">The twin.</param>
    internal static Ratios OfValve(Ratios ratios, FittedTwin twin)
    {
        double rate = twin.IsOfFlap ? RateOfFlap : 0;
        double flow = twin.IsOfSoftSpring ? FlowOfSoftSpring : rate;
        return ratios.With(new Ratios(rate, flow, flow, rate), (u, more, _) => Math.Sqrt((u * u) + (more * more)), ratios);
    }

    /// <summary>
    /// x/(1 − x), x the step that a wave takes off the velocity over the closing velocity: at x = 1 the surge no longer opens the delivery valve.
    /// </summary>
    /// <param name="ram">The ram.</param>
    /// <param name="closingMPerS">Closing velocity [m/s].</param>
    internal static double Nearness(RamParameters ram, double closingMPerS)
    {
        double lift = ram.DeliveryMain.OutletHeadM - ram.Supply.HeadM;
        double step = lift * Constants.GravityMPerS2 / ram.WaveSpeedAt(ram.DeliveryMain.OutletHeadM);
        double share = Math.Clamp(step / Math.Max(1e-3, closingMPerS), 0, MostShare);
        return share / (1 - share);
    }

    /// <summary>
    /// A flow of the record and the twin's own together. The twin weighs twice as much: on the rams that chose, it came nearer, since it
    /// knows the drive pipe's walls, gas and valves. A third of what they disagree by goes into the uncertainty.
    /// </summary>
    /// <param name="measured">By the record alone.</param>
    /// <param name="twin">By the twin.</param>
    internal static Figure Together(Figure measured, double twin)
    {
        if (!(measured.Value > 0 && twin > 0))
        {
            return measured;
        }

        double apart = Math.Log(twin / measured.Value);
        double value = measured.Value * Math.Exp(TwinWeight * apart);
        double spread = Math.Sqrt(Math.Pow(measured.StandardU / measured.Value, 2) + Math.Pow((1 - TwinWeight) * apart, 2));
        return measured with { Value = value, U = measured.K * spread * value };
    }

    internal static Figure Alone(double value) => new(value, 2 * AloneShare * value);
}
