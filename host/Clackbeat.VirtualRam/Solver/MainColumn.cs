using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>A stretch of the delivery main as a rigid column with wall friction, stepped implicitly.</summary>
internal sealed class MainColumn
{
    private const int StepsPerFactor = 15;
    private readonly MainParameters _main;
    private readonly double _viscosity;
    private readonly double _share;
    private readonly double _area;
    private readonly double _inertia;
    private readonly double _velocityHead;
    private double _loss;
    private int _stepsToNextFactor;

    /// <summary>Makes a stretch at rest.</summary>
    /// <param name="ram">The ram.</param>
    /// <param name="share">Share of the main's length and of its fittings.</param>
    /// <param name="stepS">Time step.</param>
    internal MainColumn(RamParameters ram, double share, double stepS)
    {
        _main = ram.DeliveryMain;
        _viscosity = ram.Water.KinematicViscosityM2PerS;
        _share = share;
        _area = Math.PI / 4 * _main.BoreM * _main.BoreM;
        _inertia = share * _main.LengthM / (Constants.GravityMPerS2 * _area * stepS);
        _velocityHead = 1 / (2 * Constants.GravityMPerS2 * _area * _area);
    }

    internal double FlowM3PerS { get; private set; }

    /// <summary>Flow at the end of the step for the head lost along the stretch, and its slope.</summary>
    internal double Flow(double headLossM, out double slope)
    {
        double drive = headLossM + _inertia * FlowM3PerS;
        double root = Math.Sqrt(_inertia * _inertia + 4 * _loss * Math.Abs(drive));
        slope = 1 / root;
        return 2 * drive / (_inertia + root);
    }

    /// <summary>Takes the step.</summary>
    internal void Advance(double headLossM) => FlowM3PerS = Flow(headLossM, out _);

    /// <summary>Sets the stretch running, and tells the head that friction takes then [m].</summary>
    internal double Run(double flowM3PerS)
    {
        FlowM3PerS = flowM3PerS;
        Prepare();
        return _loss * flowM3PerS * flowM3PerS;
    }

    /// <summary>Nothing runs any more.</summary>
    internal void Rest() => FlowM3PerS = 0;

    /// <summary>Before a step: friction follows the flow, renewed every few steps.</summary>
    internal void Prepare()
    {
        if (_stepsToNextFactor-- > 0)
        {
            return;
        }

        _stepsToNextFactor = StepsPerFactor;
        double factor = 0.0;
        if (_viscosity > 0)
        {
            double reynolds = Friction.Reynolds(FlowM3PerS / _area, _main.BoreM, _viscosity);
            factor = Friction.DarcyFactor(Math.Max(reynolds, 1), _main.RoughnessM / _main.BoreM);
        }

        _loss = _share * (factor * _main.LengthM / _main.BoreM + _main.LossCoefficient) * _velocityHead;
    }
}
