using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>Air vessel (polytropic gas over water) and delivery main (a rigid column with wall friction).</summary>
internal sealed class DeliverySide
{
    private const int StepsPerFactor = 15;
    private readonly RamParameters ram;
    private readonly double stepS;
    private readonly double weight;
    private readonly double columnInertia;
    private readonly double velocityHead;
    private readonly double area;
    private double lossFactor;
    private int stepsToNextFactor;

    internal DeliverySide(RamParameters ram, double stepS)
    {
        this.ram = ram;
        this.stepS = stepS;
        weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        area = Math.PI / 4 * ram.DeliveryMain.BoreM * ram.DeliveryMain.BoreM;
        columnInertia = ram.DeliveryMain.LengthM / (Constants.GravityMPerS2 * area * stepS);
        velocityHead = 1 / (2 * Constants.GravityMPerS2 * area * area);
        GasM3 = ram.AirVessel.GasM3;
        HeadM = ram.DeliveryMain.OutletHeadM;
    }

    internal double HeadM { get; private set; }

    internal double GasM3 { get; private set; }

    internal double MainFlowM3PerS { get; private set; }

    /// <summary>Takes one step with what came through the delivery valve.</summary>
    internal void Advance(double deliveryFlowM3PerS)
    {
        GasM3 += stepS * (MainFlowM3PerS - deliveryFlowM3PerS);
        var restPa = ram.Water.AtmospherePa + weight * ram.DeliveryMain.OutletHeadM;
        var pressure = restPa * Math.Pow(ram.AirVessel.GasM3 / GasM3, ram.AirVessel.PolytropicExponent);
        HeadM = (pressure - ram.Water.AtmospherePa) / weight;
        var drive = HeadM - ram.DeliveryMain.OutletHeadM + columnInertia * MainFlowM3PerS;
        var loss = LossFactor();
        MainFlowM3PerS = 2 * drive
            / (columnInertia + Math.Sqrt(columnInertia * columnInertia + 4 * loss * Math.Abs(drive)));
    }

    private double LossFactor()
    {
        if (stepsToNextFactor-- > 0)
        {
            return lossFactor;
        }

        stepsToNextFactor = StepsPerFactor;
        var main = ram.DeliveryMain;
        var factor = 0.0;
        if (ram.Water.KinematicViscosityM2PerS > 0)
        {
            var reynolds = Friction.Reynolds(
                MainFlowM3PerS / area, main.BoreM, ram.Water.KinematicViscosityM2PerS);
            factor = Friction.DarcyFactor(Math.Max(reynolds, 1), main.RoughnessM / main.BoreM);
        }

        lossFactor = (factor * main.LengthM / main.BoreM + main.LossCoefficient) * velocityHead;
        return lossFactor;
    }
}
