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

    /// <summary>A floating valve counts as wide open from this share of its rest lift on; the first flow moves it already.</summary>
    private const double WideOpenShare = 0.8;

    private static readonly double RootTwoG = Math.Sqrt(2 * Constants.GravityMPerS2);

    private ValveParameters _valve;
    private readonly double _pressurePerHead;
    private readonly double _sign;
    private readonly double _stepS;
    private readonly double _seatDamping;
    private double _freeSpeed;
    private double _speedPerHead;
    private double _gapArea;
    private double _lowSpeed;
    private double _highSpeed;

    /// <summary>Makes a valve at rest on its seat.</summary>
    /// <param name="valve">What it is like.</param>
    /// <param name="pressureShuts">True for the waste valve, false for the delivery valve.</param>
    /// <param name="densityKgPerM3">Density of the water.</param>
    /// <param name="stepS">Time step.</param>
    internal LiftValve(ValveParameters valve, bool pressureShuts, double densityKgPerM3, double stepS)
    {
        _valve = valve;
        _stepS = stepS;
        _sign = pressureShuts ? -1 : 1;
        _pressurePerHead = densityKgPerM3 * Constants.GravityMPerS2;
        // Damping ratio that leaves the wanted rebound after half a swing on the seat.
        double log = Math.Log(Math.Max(valve.Rebound, 1e-3));
        double ratio = -log / Math.Sqrt(Math.PI * Math.PI + log * log);
        _seatDamping = 2 * ratio * Math.Sqrt(valve.SeatStiffnessNPerM * valve.MassKg);
    }

    /// <summary>Lift over the seat [m]; below 0 the seat's facing is pressed in.</summary>
    internal double LiftM { get; private set; }

    internal double SpeedMPerS { get; private set; }

    internal double FlowM3PerS { get; private set; }

    /// <summary>Share of the travel, 0 shut to 1 open.</summary>
    internal double Opening => Math.Max(0, LiftM) / _valve.TravelM;

    /// <summary>It stands where it stays open without flow: at its stop, or, of a valve that floats, nearly where it hangs.</summary>
    internal bool WideOpen => _valve.Floats ? LiftM >= WideOpenShare * _valve.RestLiftM : Opening == 1;

    /// <summary>The plug touches its seat: no gap.</summary>
    internal bool Seated => LiftM <= 0;

    internal PlugHold Hold { get; set; }

    /// <summary>Factor on the preload; 1 as built.</summary>
    internal double PreloadFactor { get; set; } = 1;

    /// <summary>Extra opening force while the plug is within a fiftieth of its stop [N].</summary>
    internal double StickAtStopN { get; set; }

    /// <summary>Extra opening force [N]: a keeper's hand.</summary>
    internal double PushN { get; set; }

    /// <summary>Gives the running valve another stroke or force; mass and facing stay.</summary>
    internal void Refit(ValveParameters valve) => _valve = valve;

    /// <summary>Lets the seated plug come to rest under a head difference that keeps it shut.</summary>
    internal void RestUnder(double differenceM)
    {
        double opening = -_sign * _valve.PreloadN + _sign * _pressurePerHead * _valve.SeatAreaM2 * differenceM;
        LiftM = Math.Min(0, opening / _valve.SeatStiffnessNPerM);
    }

    /// <summary>Lifts the plug to where it stays open without flow.</summary>
    internal void OpenAtRest() => LiftM = _valve.RestLiftM;

    /// <summary>Fixes for this step what does not depend on the head that is sought.</summary>
    internal void Prepare()
    {
        double force = PushN + (_valve.Flap is null
            ? -_sign * _valve.PreloadN * PreloadFactor - _valve.SpringNPerM * LiftM
            : PreloadFactor * _valve.OpeningForceN(LiftM));
        double damping = _valve.DampingNSPerM;
        double stiffness = _valve.Flap is { } flap ? _valve.PreloadN / (flap.ArmM * Math.Sin(flap.RestRad)) : _valve.SpringNPerM;
        if (Seated)
        {
            force -= _valve.SeatStiffnessNPerM * LiftM;
            damping += _seatDamping;
            stiffness += _valve.SeatStiffnessNPerM;
        }
        else if (_valve.Floats ? WideOpen : Opening > 0.98)
        {
            force += StickAtStopN;
        }

        double slowness = _valve.MassKg + _stepS * (damping + _stepS * stiffness);
        double share = _valve.ForceShare(LiftM);
        _speedPerHead = _sign * share * _stepS * _pressurePerHead * _valve.SeatAreaM2 / slowness;
        _freeSpeed = (_valve.MassKg * SpeedMPerS + _stepS * force) / slowness;
        _gapArea = _valve.OpenAreaM2(LiftM) + _valve.LeakAreaM2;
        _lowSpeed = Hold == PlugHold.None ? double.NegativeInfinity : 0;
        _highSpeed = Hold == PlugHold.None ? (_valve.TravelM - LiftM) / _stepS : 0;
    }

    /// <summary>Flow and its slope for a head difference across the valve.</summary>
    internal double Flow(double differenceM, out double slope)
    {
        double speed = _freeSpeed + _speedPerHead * differenceM;
        double square = differenceM * differenceM;
        double bent = square + LinearHeadM * LinearHeadM;
        double root = Math.Sqrt(bent);
        double fourth = Math.Sqrt(root);
        double q = _gapArea * RootTwoG * differenceM / fourth;
        slope = _gapArea * RootTwoG * (0.5 * square + LinearHeadM * LinearHeadM) / (bent * fourth);
        double sweep = _sign * _valve.SeatAreaM2;
        if (speed <= _lowSpeed)
        {
            return q + sweep * _lowSpeed;
        }

        if (speed >= _highSpeed)
        {
            return q + sweep * _highSpeed;
        }

        slope += sweep * _speedPerHead;
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

        double speed = _freeSpeed + _speedPerHead * differenceM;
        double before = LiftM;
        if (speed < _highSpeed)
        {
            LiftM += _stepS * speed;
            SpeedMPerS = speed;
            return before > 0 && LiftM <= 0 ? before / (before - LiftM) : null;
        }

        LiftM = _valve.TravelM;
        double rebound = _valve.Rebound * speed;
        double gain = Math.Abs(speed - SpeedMPerS);
        bool bounces = before < _valve.TravelM && rebound > 0.5 * ShortestReboundSteps * gain;
        SpeedMPerS = bounces ? -rebound : 0;
        return null;
    }
}
