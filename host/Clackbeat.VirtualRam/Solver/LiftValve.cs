using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>Something that keeps a plug from moving.</summary>
internal enum PlugHold
{
    None,
    Shut,
    Open,
}

/// <summary>
/// A plug that pressure and its own weight move between a yielding seat and a hard stop. Speed is taken implicitly (a nearly shut plug and
/// the water around it are stiff), position explicitly.
/// </summary>
internal sealed class LiftValve
{
    /// <summary>Head below which the square-root law bends into a straight line [m], so that its slope stays finite.</summary>
    private const double LinearHeadM = 1e-3;

    /// <summary>A rebound that would last fewer steps than this is over before it begins.</summary>
    private const double ShortestReboundSteps = 6;

    private static readonly double RootTwoG = Math.Sqrt(2 * Constants.GravityMPerS2);

    private readonly ValveParameters valve;
    private readonly double pressurePerHead;
    private readonly double sign;
    private readonly double stepS;
    private readonly double seatDamping;
    private double freeSpeed;
    private double speedPerHead;
    private double gapArea;
    private double lowSpeed;
    private double highSpeed;

    /// <summary>Makes a valve at rest on its seat.</summary>
    /// <param name="valve">What it is like.</param>
    /// <param name="pressureShuts">True for the waste valve, false for the delivery valve.</param>
    /// <param name="densityKgPerM3">Density of the water.</param>
    /// <param name="stepS">Time step.</param>
    internal LiftValve(ValveParameters valve, bool pressureShuts, double densityKgPerM3, double stepS)
    {
        this.valve = valve;
        this.stepS = stepS;
        sign = pressureShuts ? -1 : 1;
        pressurePerHead = densityKgPerM3 * Constants.GravityMPerS2;
        // Damping ratio that leaves the wanted rebound after half a swing on the seat.
        var log = Math.Log(Math.Max(valve.Rebound, 1e-3));
        var ratio = -log / Math.Sqrt(Math.PI * Math.PI + log * log);
        seatDamping = 2 * ratio * Math.Sqrt(valve.SeatStiffnessNPerM * valve.MassKg);
    }

    /// <summary>Lift over the seat [m]; below 0 the seat's facing is pressed in.</summary>
    internal double LiftM { get; private set; }

    internal double SpeedMPerS { get; private set; }

    internal double FlowM3PerS { get; private set; }

    /// <summary>Share of the travel, 0 shut to 1 open.</summary>
    internal double Opening => Math.Max(0, LiftM) / valve.TravelM;

    /// <summary>The plug touches its seat: no gap.</summary>
    internal bool Seated => LiftM <= 0;

    internal PlugHold Hold { get; set; }

    /// <summary>Factor on the preload; 1 as built.</summary>
    internal double PreloadFactor { get; set; } = 1;

    /// <summary>Extra opening force while the plug is within a fiftieth of its stop [N].</summary>
    internal double StickAtStopN { get; set; }

    /// <summary>Extra opening force [N]: a keeper's hand.</summary>
    internal double PushN { get; set; }

    /// <summary>Lets the seated plug come to rest under a head difference that keeps it shut.</summary>
    internal void RestUnder(double differenceM)
    {
        var opening = -sign * valve.PreloadN + sign * pressurePerHead * valve.SeatAreaM2 * differenceM;
        LiftM = Math.Min(0, opening / valve.SeatStiffnessNPerM);
    }

    /// <summary>Fixes for this step what does not depend on the head that is sought.</summary>
    internal void Prepare()
    {
        var force = -sign * valve.PreloadN * PreloadFactor - valve.SpringNPerM * LiftM + PushN;
        var damping = valve.DampingNSPerM;
        var stiffness = valve.SpringNPerM;
        if (Seated)
        {
            force -= valve.SeatStiffnessNPerM * LiftM;
            damping += seatDamping;
            stiffness += valve.SeatStiffnessNPerM;
        }
        else if (Opening > 0.98)
        {
            force += StickAtStopN;
        }

        var slowness = valve.MassKg + stepS * (damping + stepS * stiffness);
        var share = 1 - (1 - valve.ForceShareAtStop) * Opening;
        speedPerHead = sign * share * stepS * pressurePerHead * valve.SeatAreaM2 / slowness;
        freeSpeed = (valve.MassKg * SpeedMPerS + stepS * force) / slowness;
        var gap = valve.GapWidthM * LiftM;
        var passage = valve.PassageAreaM2;
        gapArea = gap > 0 ? gap * passage / Math.Sqrt(gap * gap + passage * passage) : 0;
        gapArea += valve.LeakAreaM2;
        lowSpeed = Hold == PlugHold.None ? double.NegativeInfinity : 0;
        highSpeed = Hold == PlugHold.None ? (valve.TravelM - LiftM) / stepS : 0;
    }

    /// <summary>Flow and its slope for a head difference across the valve.</summary>
    internal double Flow(double differenceM, out double slope)
    {
        var speed = freeSpeed + speedPerHead * differenceM;
        var square = differenceM * differenceM;
        var bent = square + LinearHeadM * LinearHeadM;
        var root = Math.Sqrt(bent);
        var fourth = Math.Sqrt(root);
        var q = gapArea * RootTwoG * differenceM / fourth;
        slope = gapArea * RootTwoG * (0.5 * square + LinearHeadM * LinearHeadM) / (bent * fourth);
        var sweep = sign * valve.SeatAreaM2;
        if (speed <= lowSpeed)
        {
            return q + sweep * lowSpeed;
        }

        if (speed >= highSpeed)
        {
            return q + sweep * highSpeed;
        }

        slope += sweep * speedPerHead;
        return q + sweep * speed;
    }

    /// <summary>Takes the step for the head difference found; returns the share of the step after which the plug met its seat, or null.</summary>
    internal double? Move(double differenceM)
    {
        FlowM3PerS = Flow(differenceM, out _);
        if (Hold != PlugHold.None)
        {
            SpeedMPerS = 0;
            return null;
        }

        var speed = freeSpeed + speedPerHead * differenceM;
        var before = LiftM;
        if (speed < highSpeed)
        {
            LiftM += stepS * speed;
            SpeedMPerS = speed;
            return before > 0 && LiftM <= 0 ? before / (before - LiftM) : null;
        }

        LiftM = valve.TravelM;
        var rebound = valve.Rebound * speed;
        var gain = Math.Abs(speed - SpeedMPerS);
        var bounces = before < valve.TravelM && rebound > 0.5 * ShortestReboundSteps * gain;
        SpeedMPerS = bounces ? -rebound : 0;
        return null;
    }
}
