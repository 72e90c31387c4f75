using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The node where pipe, both valves, a little gas and the body's own give meet. Solved implicitly each step:
/// Q_in(C⁺ − h) = Q_waste(h) + Q_delivery(h) + Q_snifter(h) + what the body takes in. Every term rises with the head, so the root is
/// single. A gate beside the body takes K V²/2g of what arrives. The snifter spits while the body stands under pressure and
/// lets air in under suction; that air leaves for the vessel with the water delivered, where it makes up for what dissolves.
/// The gas keeps the head above vapour pressure: it grows without bound there, as a vapour cavity does.
/// </summary>
internal sealed class Body
{
    private const int MostRounds = 100;
    private const int NewtonRounds = 12;

    /// <summary>What the balance may miss [m³/s]: a tenth of a millilitre in three years.</summary>
    private const double LargestSurplusM3PerS = 1e-12;

    private readonly double _stepS;
    private readonly double _impedance;
    private readonly double _compliance;
    private readonly double _ownGasTimesHead;
    private double _gateLoss;
    private readonly double _tailwaterM;
    private readonly Snifter? _snifter;
    private readonly double _vapourHead;
    private readonly double _inertance;
    private readonly LiftValve _waste;
    private readonly LiftValve _delivery;
    private double _deliveryDifference;
    private double _gasTimesHead;

    internal Body(RamParameters ram, DrivePipe pipe, LiftValve waste, LiftValve delivery)
    {
        _waste = waste;
        _delivery = delivery;
        _stepS = pipe.StepS;
        _impedance = pipe.ImpedanceSPerM2;
        _compliance = ram.Body.ComplianceM2;
        _vapourHead = -(ram.Water.AtmospherePa - ram.Water.VapourPressurePa)
            / (ram.Water.DensityKgPerM3 * Constants.GravityMPerS2);
        _ownGasTimesHead = _gasTimesHead = ram.Body.GasM3 * -_vapourHead;
        double area = ram.DrivePipe.AreaM2;
        _gateLoss = ram.Body.GateLoss / (2 * Constants.GravityMPerS2 * area * area);
        _tailwaterM = ram.Body.TailwaterM;
        _snifter = ram.Body.SnifterAreaM2 > 0 ? new Snifter(ram) : null;
        _inertance = ram.DeliveryValve.InertanceS2PerM2 / _stepS;
        HeadM = ram.Supply.HeadM;
        _deliveryDifference = HeadM - ram.DeliveryMain.OutletHeadM;
    }

    internal double HeadM { get; private set; }

    /// <summary>Head at the pipe's end, before the gate [m].</summary>
    internal double PipeEndHeadM { get; private set; }

    /// <summary>Shuts the gate beside the ram, all but an area that leaks [m²].</summary>
    internal void ShutGate(double leakAreaM2) => _gateLoss = 1 / (2 * Constants.GravityMPerS2 * leakAreaM2 * leakAreaM2);

    /// <summary>Water that the snifter spits [m³/s].</summary>
    internal double SpitM3PerS => _snifter?.WaterM3PerS(HeadM, out _) ?? 0;

    /// <summary>Head difference across the waste valve [m].</summary>
    internal double WasteDifferenceM => HeadM - _tailwaterM;

    /// <summary>Head difference across the delivery valve's plug [m].</summary>
    internal double DeliveryDifferenceM => _deliveryDifference;

    /// <summary>Water held above that of a body at head 0 without gas [m³].</summary>
    internal double StoredM3 => _compliance * HeadM - GasAt(HeadM);

    /// <summary>Finds the head of this step; returns the flow out of the pipe.</summary>
    internal double Solve(double arrivingM, double vesselHeadM)
    {
        var before = new Terms(arrivingM, vesselHeadM, _delivery.FlowM3PerS, StoredM3);
        _gasTimesHead += _snifter?.GasGain(HeadM, _gasTimesHead - _ownGasTimesHead, _delivery.FlowM3PerS, _stepS) ?? 0;
        double low = double.NegativeInfinity;
        double high = double.PositiveInfinity;
        double x = _deliveryDifference;
        for (int round = 0; round < MostRounds; round++)
        {
            double h = HeadFor(x, before, out double rise, out double deliveryFlow, out double deliverySlope);
            if (h <= _vapourHead + 1e-9)
            {
                low = x;
                x = double.IsPositiveInfinity(high) ? x + 1.1 * (_vapourHead - h) + 1 : 0.5 * (low + high);
                continue;
            }

            double surplus = Surplus(h, deliveryFlow, before, out double slope);
            if (surplus > 0)
            {
                low = x;
            }
            else
            {
                high = x;
            }

            double step = surplus / (slope * rise + deliverySlope);
            // Toward the vapour limit the gas term has a pole: never jump more than most of the way.
            step = Math.Max(step, -0.95 * (h - _vapourHead) / rise);
            if (Math.Abs(surplus) < LargestSurplusM3PerS || Math.Abs(step) < 1e-15 * (1 + Math.Abs(x)))
            {
                break;
            }

            x += step;
            // Around head 0 the discharge law has a turning point that Newton's steps can jump to and fro across for ever.
            bool halve = round > NewtonRounds && double.IsFinite(high - low);
            if (x <= low || x >= high || halve)
            {
                x = 0.5 * (low + high);
            }
        }

        _deliveryDifference = x;
        HeadM = HeadFor(x, before, out _, out _, out _);
        double inflow = Inflow(arrivingM - HeadM, out _);
        PipeEndHeadM = arrivingM - _impedance * inflow;
        return inflow;
    }

    private double Inflow(double driveM, out double slope)
    {
        double root = Math.Sqrt(_impedance * _impedance + 4 * _gateLoss * Math.Abs(driveM));
        slope = 1 / root;
        return 2 * driveM / (_impedance + root);
    }

    private double HeadFor(double difference, in Terms before, out double rise, out double flow, out double flowSlope)
    {
        flow = _delivery.Flow(difference, out flowSlope);
        rise = 1 + _inertance * flowSlope;
        return before.VesselHead + difference + _inertance * (flow - before.DeliveryFlow);
    }

    private double Surplus(double h, double deliveryFlow, in Terms before, out double slope)
    {
        double wasteFlow = _waste.Flow(h - _tailwaterM, out double wasteSlope);
        double gas = GasAt(h);
        double taken = (_compliance * h - gas - before.Stored) / _stepS;
        double inflow = Inflow(before.Arriving - h, out double inflowSlope);
        double spitSlope = 0.0;
        double spit = _snifter?.WaterM3PerS(h, out spitSlope) ?? 0;
        slope = inflowSlope + wasteSlope + spitSlope + (_compliance + gas / (h - _vapourHead)) / _stepS;
        return inflow - wasteFlow - deliveryFlow - spit - taken;
    }

    private double GasAt(double h) => _gasTimesHead / (h - _vapourHead);

    private readonly record struct Terms(double Arriving, double VesselHead, double DeliveryFlow, double Stored);
}
