using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The node where pipe, both valves, a little gas and the body's own give meet. Solved implicitly each step:
/// (C⁺ − h)/B = Q_waste(h) + Q_delivery(h) + what the body takes in. Every term rises with the head, so the root is single.
/// The gas keeps the head above vapour pressure: it grows without bound there, as a vapour cavity does.
/// </summary>
internal sealed class Body
{
    private const int MostRounds = 100;
    private const int NewtonRounds = 12;

    /// <summary>What the balance may miss [m³/s]: a tenth of a millilitre in three years.</summary>
    private const double LargestSurplusM3PerS = 1e-12;

    private readonly double stepS;
    private readonly double impedance;
    private readonly double compliance;
    private readonly double gasTimesHead;
    private readonly double vapourHead;
    private readonly double inertance;
    private readonly LiftValve waste;
    private readonly LiftValve delivery;
    private double deliveryDifference;

    internal Body(RamParameters ram, DrivePipe pipe, LiftValve waste, LiftValve delivery)
    {
        this.waste = waste;
        this.delivery = delivery;
        stepS = pipe.StepS;
        impedance = pipe.ImpedanceSPerM2;
        compliance = ram.Body.ComplianceM2;
        vapourHead = -(ram.Water.AtmospherePa - ram.Water.VapourPressurePa)
            / (ram.Water.DensityKgPerM3 * Constants.GravityMPerS2);
        gasTimesHead = ram.Body.GasM3 * -vapourHead;
        inertance = ram.DeliveryValve.InertanceS2PerM2 / stepS;
        HeadM = ram.Supply.HeadM;
        deliveryDifference = HeadM - ram.DeliveryMain.OutletHeadM;
    }

    internal double HeadM { get; private set; }

    /// <summary>Head difference across the delivery valve's plug [m].</summary>
    internal double DeliveryDifferenceM => deliveryDifference;

    /// <summary>Water held above that of a body at head 0 without gas [m³].</summary>
    internal double StoredM3 => compliance * HeadM - GasAt(HeadM);

    /// <summary>Finds the head of this step; returns the flow out of the pipe.</summary>
    internal double Solve(double arrivingM, double vesselHeadM)
    {
        var before = new Terms(arrivingM, vesselHeadM, delivery.FlowM3PerS, StoredM3);
        var low = double.NegativeInfinity;
        var high = double.PositiveInfinity;
        var x = deliveryDifference;
        for (var round = 0; round < MostRounds; round++)
        {
            var h = HeadFor(x, before, out var rise, out var deliveryFlow, out var deliverySlope);
            if (h <= vapourHead + 1e-9)
            {
                low = x;
                x = double.IsPositiveInfinity(high) ? x + 1.1 * (vapourHead - h) + 1 : 0.5 * (low + high);
                continue;
            }

            var surplus = Surplus(h, deliveryFlow, before, out var slope);
            if (surplus > 0)
            {
                low = x;
            }
            else
            {
                high = x;
            }

            var step = surplus / (slope * rise + deliverySlope);
            // Toward the vapour limit the gas term has a pole: never jump more than most of the way.
            step = Math.Max(step, -0.95 * (h - vapourHead) / rise);
            if (Math.Abs(surplus) < LargestSurplusM3PerS || Math.Abs(step) < 1e-15 * (1 + Math.Abs(x)))
            {
                break;
            }

            x += step;
            // Around head 0 the discharge law has a turning point that Newton's steps can jump to and fro across for ever.
            var halve = round > NewtonRounds && double.IsFinite(high - low);
            if (x <= low || x >= high || halve)
            {
                x = 0.5 * (low + high);
            }
        }

        deliveryDifference = x;
        HeadM = HeadFor(x, before, out _, out _, out _);
        return (arrivingM - HeadM) / impedance;
    }

    private double HeadFor(double difference, in Terms before, out double rise, out double flow, out double flowSlope)
    {
        flow = delivery.Flow(difference, out flowSlope);
        rise = 1 + inertance * flowSlope;
        return before.VesselHead + difference + inertance * (flow - before.DeliveryFlow);
    }

    private double Surplus(double h, double deliveryFlow, in Terms before, out double slope)
    {
        var wasteFlow = waste.Flow(h, out var wasteSlope);
        var gas = GasAt(h);
        var taken = (compliance * h - gas - before.Stored) / stepS;
        slope = 1 / impedance + wasteSlope + (compliance + gas / (h - vapourHead)) / stepS;
        return (before.Arriving - h) / impedance - wasteFlow - deliveryFlow - taken;
    }

    private double GasAt(double h) => gasTimesHead / (h - vapourHead);

    private readonly record struct Terms(double Arriving, double VesselHead, double DeliveryFlow, double Stored);
}
