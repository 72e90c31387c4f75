using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>Air vessel (polytropic gas over water) and delivery main (a rigid column with wall friction).</summary>
internal sealed class DeliverySide
{
    private const int StepsPerFactor = 15;
    private readonly RamParameters _ram;
    private readonly double _stepS;
    private readonly double _weight;
    private readonly double _columnInertia;
    private readonly double _velocityHead;
    private readonly double _area;
    private double _lossFactor;
    private int _stepsToNextFactor;

    internal DeliverySide(RamParameters ram, double stepS)
    {
        _ram = ram;
        _stepS = stepS;
        _weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        _area = Math.PI / 4 * ram.DeliveryMain.BoreM * ram.DeliveryMain.BoreM;
        _columnInertia = ram.DeliveryMain.LengthM / (Constants.GravityMPerS2 * _area * stepS);
        _velocityHead = 1 / (2 * Constants.GravityMPerS2 * _area * _area);
        GasM3 = ram.AirVessel.GasM3;
        HeadM = ram.DeliveryMain.OutletHeadM;
    }

    internal double HeadM { get; private set; }

    internal double GasM3 { get; private set; }

    internal double MainFlowM3PerS { get; private set; }

    /// <summary>Takes one step with what came through the delivery valve.</summary>
    internal void Advance(double deliveryFlowM3PerS)
    {
        GasM3 += _stepS * (MainFlowM3PerS - deliveryFlowM3PerS);
        double restPa = _ram.Water.AtmospherePa + _weight * _ram.DeliveryMain.OutletHeadM;
        double pressure = restPa * Math.Pow(_ram.AirVessel.GasM3 / GasM3, _ram.AirVessel.PolytropicExponent);
        HeadM = (pressure - _ram.Water.AtmospherePa) / _weight;
        double drive = HeadM - _ram.DeliveryMain.OutletHeadM + _columnInertia * MainFlowM3PerS;
        double loss = LossFactor();
        MainFlowM3PerS = 2 * drive
            / (_columnInertia + Math.Sqrt(_columnInertia * _columnInertia + 4 * loss * Math.Abs(drive)));
    }

    private double LossFactor()
    {
        if (_stepsToNextFactor-- > 0)
        {
            return _lossFactor;
        }

        _stepsToNextFactor = StepsPerFactor;
        MainParameters main = _ram.DeliveryMain;
        double factor = 0.0;
        if (_ram.Water.KinematicViscosityM2PerS > 0)
        {
            double reynolds = Friction.Reynolds(
                MainFlowM3PerS / _area, main.BoreM, _ram.Water.KinematicViscosityM2PerS);
            factor = Friction.DarcyFactor(Math.Max(reynolds, 1), main.RoughnessM / main.BoreM);
        }

        _lossFactor = (factor * main.LengthM / main.BoreM + main.LossCoefficient) * _velocityHead;
        return _lossFactor;
    }
}
