using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// Air vessel (polytropic gas over water) and delivery main (a rigid column with wall friction). A main with a hole is two columns: at the
/// hole, what arrives goes on or out, Q₁ = Q₂ + C √(2 g (h − z)), with z the height of the hole on an evenly rising main. Where all of it
/// goes out, the rest of the main stands still: no water comes back from an outlet in the open air.
/// </summary>
internal sealed class DeliverySide
{
    private const int MostRounds = 60;
    private const double LargestSurplusM3PerS = 1e-12;
    private readonly RamParameters _ram;
    private readonly double _stepS;
    private readonly double _weight;
    private readonly MainColumn _toHole;
    private readonly MainColumn? _beyond;
    private readonly double _holeM;
    private readonly double _hole;
    private double _holeHeadM;
    private double _timeS;

    internal DeliverySide(RamParameters ram, double stepS)
    {
        _ram = ram;
        _stepS = stepS;
        _weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        MainParameters main = ram.DeliveryMain;
        bool leaks = main.LeakAreaM2 > 0;
        _toHole = new MainColumn(ram, leaks ? main.LeakAt : 1, stepS);
        _beyond = leaks ? new MainColumn(ram, 1 - main.LeakAt, stepS) : null;
        _holeM = main.LeakAt * main.OutletHeadM;
        _hole = main.LeakAreaM2 * Math.Sqrt(2 * Constants.GravityMPerS2);
        GasM3 = ram.AirVessel.GasM3;
        HeadM = _holeHeadM = main.OutletHeadM;
        if (main.RunningM3PerS > 0 && !leaks)
        {
            // A main that runs already: the vessel stands as much higher as friction takes.
            HeadM += _toHole.Run(main.RunningM3PerS);
            GasM3 *= Math.Pow(RestPa / (RestPa + _weight * (HeadM - main.OutletHeadM)), 1 / ram.AirVessel.PolytropicExponent);
        }
    }

    internal double HeadM { get; private set; }

    internal double GasM3 { get; private set; }

    /// <summary>What leaves the vessel [m³/s].</summary>
    internal double MainFlowM3PerS => _toHole.FlowM3PerS;

    /// <summary>What arrives at the outlet [m³/s].</summary>
    internal double OutletFlowM3PerS => (_beyond ?? _toHole).FlowM3PerS;

    private double RestPa => _ram.Water.AtmospherePa + _weight * _ram.DeliveryMain.OutletHeadM;

    /// <summary>Takes one step with what came through the delivery valve.</summary>
    internal void Advance(double deliveryFlowM3PerS)
    {
        GasM3 += _stepS * (MainFlowM3PerS - deliveryFlowM3PerS - Neighbour());
        double pressure = RestPa * Math.Pow(_ram.AirVessel.GasM3 / GasM3, _ram.AirVessel.PolytropicExponent);
        HeadM = (pressure - _ram.Water.AtmospherePa) / _weight;
        _toHole.Prepare();
        if (_beyond is null)
        {
            _toHole.Advance(HeadM - _ram.DeliveryMain.OutletHeadM);
            return;
        }

        _beyond.Prepare();
        Split(_beyond);
    }

    /// <summary>Finds the head at the hole: what arrives falls with it, what leaves rises, so the root is single.</summary>
    private void Split(MainColumn beyond)
    {
        double outlet = _ram.DeliveryMain.OutletHeadM;
        (double low, double high) = (double.NegativeInfinity, double.PositiveInfinity);
        for (int round = 0; round < MostRounds; round++)
        {
            double arrives = _toHole.Flow(HeadM - _holeHeadM, out double slope);
            double goesOn = beyond.Flow(_holeHeadM - outlet, out double onSlope);
            (goesOn, onSlope) = goesOn > 0 ? (goesOn, onSlope) : (0, 0);
            double goesOut = Jet(_holeHeadM, out double outSlope);
            double surplus = arrives - goesOn - goesOut;
            if (Math.Abs(surplus) < LargestSurplusM3PerS)
            {
                break;
            }

            (low, high) = surplus > 0 ? (_holeHeadM, high) : (low, _holeHeadM);
            double next = _holeHeadM + surplus / (slope + onSlope + outSlope);
            _holeHeadM = next > low && next < high ? next : 0.5 * (low + high);
        }

        _toHole.Advance(HeadM - _holeHeadM);
        beyond.Advance(_holeHeadM - outlet);
        if (beyond.FlowM3PerS < 0)
        {
            beyond.Rest();
        }
    }

    /// <summary>What the other ram delivers now: all of it through the first fifth of its beat.</summary>
    private double Neighbour()
    {
        const double Share = 0.2;
        MainParameters main = _ram.DeliveryMain;
        if (main.NeighbourM3PerS == 0)
        {
            return 0;
        }

        _timeS += _stepS;
        return _timeS / main.NeighbourPeriodS % 1 < Share ? main.NeighbourM3PerS / Share : 0;
    }

    private double Jet(double headM, out double slope)
    {
        // As in the valves: below this head the square root bends into a straight line.
        const double LinearHeadM = 1e-3;
        double over = headM - _holeM;
        if (over <= 0)
        {
            slope = 0;
            return 0;
        }

        double bent = over * over + LinearHeadM * LinearHeadM;
        double fourth = Math.Sqrt(Math.Sqrt(bent));
        slope = _hole * (0.5 * over * over + LinearHeadM * LinearHeadM) / (bent * fourth);
        return _hole * over / fourth;
    }
}
