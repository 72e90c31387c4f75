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
    private readonly RamParameters ram;
    private readonly Fault fault;
    private readonly DrivePipe pipe;
    private readonly LiftValve waste;
    private readonly LiftValve delivery;
    private readonly Body body;
    private readonly DeliverySide deliverySide;
    private readonly Keeper keeper;
    private readonly RandomSource random;
    private readonly double startS;
    private long steps;
    private bool wasAtStop;

    /// <summary>A ram at rest under its supply head, waste valve shut, vessel at the static delivery head, with a keeper beside it who pushes the valve open until it beats by itself.</summary>
    /// <param name="ram">What it is like; conditions other than the stopping and sticking ones are already in here, see <see cref="FaultEffects"/>.</param>
    /// <param name="fault">The condition, for what happens while it runs.</param>
    /// <param name="seed">Seed of all that is random.</param>
    /// <param name="startS">Time of the start [s].</param>
    public RamEngine(RamParameters ram, Fault fault, int seed, double startS = 0)
    {
        ArgumentNullException.ThrowIfNull(ram);
        ArgumentNullException.ThrowIfNull(fault);
        this.ram = ram;
        this.fault = fault;
        this.startS = startS;
        pipe = new DrivePipe(ram);
        StepS = pipe.StepS;
        var density = ram.Water.DensityKgPerM3;
        waste = new LiftValve(ram.WasteValve, pressureShuts: true, density, StepS);
        delivery = new LiftValve(ram.DeliveryValve, pressureShuts: false, density, StepS);
        body = new Body(ram, pipe, waste, delivery);
        deliverySide = new DeliverySide(ram, StepS);
        waste.RestUnder(body.HeadM);
        delivery.RestUnder(body.HeadM - deliverySide.HeadM);
        keeper = new Keeper(ram, waste);
        random = new Xoshiro256StarStar(seed, threadSafe: false);
    }

    /// <summary>Time step [s].</summary>
    public double StepS { get; }

    /// <summary>Reaches the drive pipe is cut into.</summary>
    public int Reaches => pipe.Reaches;

    /// <summary>Time at the end of the last step [s].</summary>
    public double TimeS => startS + steps * StepS;

    /// <summary>Head in the body [m].</summary>
    public double BodyHeadM => body.HeadM;

    /// <summary>Flow from the supply into the pipe [m³/s].</summary>
    public double InflowM3PerS => pipe.InflowM3PerS;

    /// <summary>Flow from the pipe into the body [m³/s].</summary>
    public double BodyFlowM3PerS => pipe.EndFlowM3PerS;

    /// <summary>Flow through the waste valve, out of the body positive [m³/s].</summary>
    public double WasteFlowM3PerS => waste.FlowM3PerS;

    /// <summary>Flow through the delivery valve, out of the body positive [m³/s].</summary>
    public double DeliveryFlowM3PerS => delivery.FlowM3PerS;

    /// <summary>Flow at the outlet of the delivery main [m³/s].</summary>
    public double OutletFlowM3PerS => deliverySide.MainFlowM3PerS;

    /// <summary>Head in the air vessel [m].</summary>
    public double VesselHeadM => deliverySide.HeadM;

    /// <summary>Lift of the waste valve, 0 shut to 1 open.</summary>
    public double WasteOpening => waste.Opening;

    /// <summary>Lift of the delivery valve, 0 shut to 1 open.</summary>
    public double DeliveryOpening => delivery.Opening;

    /// <summary>When the waste valve met its seat in the last step [s]; null when it did not.</summary>
    public double? WasteSeatedAtS { get; private set; }

    /// <summary>Vapour stands somewhere in the drive pipe.</summary>
    public bool Cavitating => pipe.Cavitating;

    /// <summary>The keeper's hand is on the valve.</summary>
    public bool Pushed => waste.PushN > 0;

    /// <summary>Water in pipe and body above that of a full, unstressed pipe [m³]; for volume balances.</summary>
    public double StoredM3 => pipe.StoredM3() + body.StoredM3;

    /// <summary>What the ram is like.</summary>
    public RamParameters Parameters => ram;

    /// <summary>Takes one step.</summary>
    public void Step()
    {
        HoldIfStopped();
        keeper.Act(StepS, body.HeadM);
        waste.Prepare();
        delivery.Prepare();
        var arriving = pipe.Advance();
        var flow = body.Solve(arriving, deliverySide.HeadM);
        var seated = waste.Move(body.HeadM);
        delivery.Move(body.DeliveryDifferenceM);
        pipe.Finish(body.HeadM, flow);
        deliverySide.Advance(delivery.FlowM3PerS);
        WasteSeatedAtS = seated is { } share ? TimeS + share * StepS : null;
        steps++;
        DrawAtStop();
    }

    private void HoldIfStopped()
    {
        if (TimeS < fault.StopsAtS || waste.Hold != PlugHold.None)
        {
            return;
        }

        if (fault.Condition == RamCondition.StoppedShut && waste.Seated)
        {
            waste.Hold = PlugHold.Shut;
        }
        else if (fault.Condition == RamCondition.StoppedOpen && waste.Opening == 1)
        {
            waste.Hold = PlugHold.Open;
        }
    }

    /// <summary>Each time the plug comes to rest at its stop, luck decides how this beat differs from the last.</summary>
    private void DrawAtStop()
    {
        var atStop = waste.Opening == 1;
        if (atStop && !wasAtStop)
        {
            waste.PreloadFactor = 1 + ram.BeatScatter * Math.Clamp(Normal.Sample(random, 0, 1), -3, 3);
            waste.StickAtStopN = fault.Condition == RamCondition.WasteValveSticking ? DrawStick() : 0;
        }

        wasAtStop = atStop;
    }

    /// <summary>
    /// A plug that hangs needs more than its weight to let go, but never more than the steady flow can give: then it would
    /// stand open for good, which is another condition.
    /// </summary>
    private double DrawStick()
    {
        if (random.NextDouble() > 0.2 + 0.6 * fault.Severity)
        {
            return 0;
        }

        var spare = FaultEffects.LargestStickN(ram);
        return spare * fault.Severity * random.NextDouble();
    }
}
