using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The running ram: pipe, body, valves, vessel and main stepped together. Bounded memory, any length of run, the same for
/// the same seed.
/// </summary>
public sealed class RamEngine
{
    private readonly RamParameters _ram;
    private readonly Fault _fault;
    private readonly DrivePipe _pipe;
    private readonly LiftValve _waste;
    private readonly LiftValve _delivery;
    private readonly Body _body;
    private readonly DeliverySide _deliverySide;
    private readonly Keeper _keeper;
    private readonly RandomSource _random;
    private readonly double _startS;
    private long _steps;
    private bool _wasAtStop;
    private bool _unattended;
    private bool _slipped;
    private bool _holds;

    /// <summary>A ram at rest under its supply head, waste valve shut, vessel at the static delivery head, with a keeper beside it who pushes the valve open until it beats by itself.</summary>
    /// <param name="ram">What it is like; conditions other than the stopping and sticking ones are already in here, see <see cref="FaultEffects"/>.</param>
    /// <param name="fault">The condition, for what happens while it runs.</param>
    /// <param name="seed">Seed of all that is random.</param>
    /// <param name="startS">Time of the start [s].</param>
    public RamEngine(RamParameters ram, Fault fault, int seed, double startS = 0)
    {
        ArgumentNullException.ThrowIfNull(ram);
        ArgumentNullException.ThrowIfNull(fault);
        _ram = ram;
        _fault = fault;
        _startS = startS;
        _pipe = new DrivePipe(ram);
        StepS = _pipe.StepS;
        double density = ram.Water.DensityKgPerM3;
        _waste = new LiftValve(ram.WasteValve, pressureShuts: true, density, StepS);
        _delivery = new LiftValve(ram.DeliveryValve, pressureShuts: false, density, StepS);
        _body = new Body(ram, _pipe, _waste, _delivery);
        _deliverySide = new DeliverySide(ram, StepS);
        _waste.RestUnder(_body.WasteDifferenceM);
        _delivery.RestUnder(_body.HeadM - _deliverySide.HeadM);
        _keeper = new Keeper(ram, _waste);
        _random = new Xoshiro256StarStar(seed, threadSafe: false);
    }

    /// <summary>Time step [s].</summary>
    public double StepS { get; }

    /// <summary>Reaches the drive pipe is cut into.</summary>
    public int Reaches => _pipe.Reaches;

    /// <summary>Time at the end of the last step [s].</summary>
    public double TimeS => _startS + _steps * StepS;

    /// <summary>Head in the body [m].</summary>
    public double BodyHeadM => _body.HeadM;

    /// <summary>Head [m] and velocity towards the body [m/s] at a place in the drive pipe.</summary>
    /// <param name="share">Place, 0 at the intake to 1 at the body.</param>
    public (double HeadM, double VelocityMPerS) Along(double share) => _pipe.At(share);

    /// <summary>Flow from the supply into the pipe [m³/s].</summary>
    public double InflowM3PerS => _pipe.InflowM3PerS;

    /// <summary>Flow from the pipe into the body [m³/s].</summary>
    public double BodyFlowM3PerS => _pipe.EndFlowM3PerS;

    /// <summary>Flow to waste, out of the body positive: through the waste valve, and what a snifter spits [m³/s].</summary>
    public double WasteFlowM3PerS => _waste.FlowM3PerS + _body.SpitM3PerS;

    /// <summary>Part of it that a snifter spits [m³/s].</summary>
    public double SpitM3PerS => _body.SpitM3PerS;

    /// <summary>Water level over the intake [m]; it moves where there is a stand pipe.</summary>
    public double LevelM => _pipe.LevelM;

    /// <summary>Flow through the delivery valve, out of the body positive [m³/s].</summary>
    public double DeliveryFlowM3PerS => _delivery.FlowM3PerS;

    /// <summary>Flow at the outlet of the delivery main [m³/s].</summary>
    public double OutletFlowM3PerS => _deliverySide.OutletFlowM3PerS;

    /// <summary>Head in the air vessel [m].</summary>
    public double VesselHeadM => _deliverySide.HeadM;

    /// <summary>Lift of the waste valve, 0 shut to 1 open.</summary>
    public double WasteOpening => _waste.Opening;

    /// <summary>Lift of the delivery valve, 0 shut to 1 open.</summary>
    public double DeliveryOpening => _delivery.Opening;

    /// <summary>When the waste valve met its seat in the last step [s]; null when it did not.</summary>
    public double? WasteSeatedAtS { get; private set; }

    /// <summary>Vapour stands somewhere in the drive pipe.</summary>
    public bool Cavitating => _pipe.Cavitating;

    /// <summary>The keeper's hand is on the valve.</summary>
    public bool Pushed => _waste.PushN > 0;

    /// <summary>Water in pipe and body above that of a full, unstressed pipe [m³]; for volume balances.</summary>
    public double StoredM3 => _pipe.StoredM3() + _body.StoredM3;

    /// <summary>What the ram is like.</summary>
    public RamParameters Parameters => _ram;

    /// <summary>Starts with the waste valve open and nobody beside it: whether it goes on beating is then its own affair.</summary>
    public void StartOpen()
    {
        _unattended = true;
        _waste.OpenAtRest();
    }

    /// <summary>A keeper holds the waste valve shut from its next closure on.</summary>
    public void HoldWasteValve()
    {
        _holds = true;
        _unattended = true;
        _waste.PushN = 0;
    }

    /// <summary>A keeper pushes the waste valve open against whatever pressure stands on it, and holds it there.</summary>
    public void PushWasteValveOpen()
    {
        _holds = false;
        _waste.Hold = PlugHold.None;
        double weight = _ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        _waste.PushN = 2 * weight * _ram.WasteValve.SeatAreaM2 * Math.Max(_ram.DeliveryMain.OutletHeadM, _body.HeadM);
    }

    /// <summary>A keeper shuts the gate beside the ram.</summary>
    /// <param name="leakAreaM2">Effective area at which the shut gate leaks [m²], above 0.</param>
    public void ShutGate(double leakAreaM2) => _body.ShutGate(leakAreaM2);

    /// <summary>Takes one step.</summary>
    public void Step()
    {
        HoldIfStopped();
        SlipOnce();
        if (!_unattended)
        {
            _keeper.Act(StepS, _body.HeadM);
        }

        _waste.Prepare();
        _delivery.Prepare();
        double arriving = _pipe.Advance();
        double flow = _body.Solve(arriving, _deliverySide.HeadM);
        double? seated = _waste.Move(_body.WasteDifferenceM);
        _delivery.Move(_body.DeliveryDifferenceM);
        _pipe.Finish(_body.PipeEndHeadM, flow);
        _deliverySide.Advance(_delivery.FlowM3PerS);
        WasteSeatedAtS = seated is { } share ? TimeS + share * StepS : null;
        _steps++;
        DrawAtStop();
    }

    private void HoldIfStopped()
    {
        if (_holds && _waste.Hold == PlugHold.None && _waste.Seated)
        {
            _waste.Hold = PlugHold.Shut;
        }

        if (TimeS < _fault.StopsAtS || _waste.Hold != PlugHold.None)
        {
            return;
        }

        if (_fault.Condition == RamCondition.StoppedShut && _waste.Seated)
        {
            _waste.Hold = PlugHold.Shut;
        }
        else if (_fault.Condition == RamCondition.StoppedOpen && _waste.WideOpen)
        {
            _waste.Hold = PlugHold.Open;
        }
    }

    private void SlipOnce()
    {
        if (_fault.Condition == RamCondition.LockNutSlips && !_slipped && TimeS >= _fault.StopsAtS)
        {
            _slipped = true;
            _waste.Refit(FaultEffects.Slipped(_ram.WasteValve, _fault.Severity));
        }
    }

    /// <summary>Each time the plug comes to rest at its stop, luck decides how this beat differs from the last.</summary>
    private void DrawAtStop()
    {
        bool atStop = _waste.WideOpen;
        if (atStop && !_wasAtStop)
        {
            _waste.PreloadFactor = 1 + _ram.BeatScatter * Math.Clamp(Normal.Sample(_random, 0, 1), -3, 3);
            _waste.StickAtStopN = _fault.Condition == RamCondition.WasteValveSticking ? DrawStick() : 0;
        }

        _wasAtStop = atStop;
    }

    /// <summary>
    /// A plug that hangs needs more than its weight to let go, but never more than the steady flow can give: then it would
    /// stand open for good, which is another condition.
    /// </summary>
    private double DrawStick()
    {
        if (_random.NextDouble() > 0.2 + 0.6 * _fault.Severity)
        {
            return 0;
        }

        double spare = FaultEffects.LargestStickN(_ram);
        return spare * _fault.Severity * _random.NextDouble();
    }
}
