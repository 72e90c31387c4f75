using System.Numerics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// The drive pipe by the method of characteristics on a fixed grid of reaches a·Δt (E. B. Wylie and V. L. Streeter, Fluid
/// Transients in Systems, 1993, ch. 3), quasi-steady
/// friction, discrete vapour cavities at the nodes (ibid. ch. 8).
/// </summary>
/// <remarks>
/// Without friction and slow give the invariants h ± B·Q move one reach a step unchanged, so waves neither smear nor decay.
/// The friction factor is that of the pipe's mean speed: the column of a ram is short and moves almost as one.
/// </remarks>
internal sealed class DrivePipe
{
    /// <summary>The mean speed changes little in a few steps, and the factor less: it is looked up only so often.</summary>
    private const int StepsPerFactor = 15;

    private readonly SupplyParameters supply;
    private readonly PipeParameters pipe;
    private readonly double viscosityM2PerS;
    private readonly double frictionPerFactor;
    private readonly double entranceLoss;
    private readonly double exitLoss;
    private readonly double[] vapourHead;
    private readonly double[] cavity;
    private readonly double[] outFlow;
    private readonly double[] relaxed;
    private readonly double relaxation;
    private readonly double waveSpeed;
    private double[] head;
    private double[] flow;
    private double[] nextHead;
    private double[] nextFlow;
    private bool cavitating;
    private double frictionFactor;
    private int stepsToNextFactor;

    internal DrivePipe(RamParameters ram)
    {
        supply = ram.Supply;
        pipe = ram.DrivePipe;
        viscosityM2PerS = ram.Water.KinematicViscosityM2PerS;
        // The quick part of the give sets the grid; the wave speed people measure includes the slow part.
        waveSpeed = pipe.WaveSpeedMPerS * Math.Sqrt(1 + pipe.SlowGive);
        var transit = pipe.LengthM / waveSpeed;
        Reaches = Math.Clamp((int)Math.Ceiling(transit / ram.LongestStepS), 4, Math.Max(4, ram.MostReaches));
        StepS = transit / Reaches;
        var rate = (1 + pipe.SlowGive) / pipe.SlowGiveTimeS;
        relaxation = pipe.SlowGive > 0 ? (1 - Math.Exp(-rate * StepS)) / (1 + pipe.SlowGive) : 0;
        var area = pipe.AreaM2;
        ImpedanceSPerM2 = waveSpeed / (Constants.GravityMPerS2 * area);
        var velocityHead = 1 / (2 * Constants.GravityMPerS2 * area * area);
        frictionPerFactor = pipe.LengthM / Reaches / pipe.BoreM * velocityHead;
        entranceLoss = (1 + supply.LossCoefficient) * velocityHead;
        exitLoss = Math.Max(0, supply.LossCoefficient) * velocityHead;
        head = new double[Reaches + 1];
        flow = new double[Reaches + 1];
        nextHead = new double[Reaches + 1];
        nextFlow = new double[Reaches + 1];
        outFlow = new double[Reaches + 1];
        cavity = new double[Reaches + 1];
        vapourHead = new double[Reaches + 1];
        relaxed = new double[Reaches + 1];
        var mouth = supply.HeadM - supply.SubmergenceM;
        var vapour = -(ram.Water.AtmospherePa - ram.Water.VapourPressurePa)
            / (ram.Water.DensityKgPerM3 * Constants.GravityMPerS2);
        for (var i = 0; i <= Reaches; i++)
        {
            vapourHead[i] = vapour + mouth * (1 - (double)i / Reaches);
        }

        Array.Fill(head, supply.HeadM);
        Array.Fill(relaxed, pipe.SlowGive * supply.HeadM);
    }

    internal int Reaches { get; }

    internal double StepS { get; }

    /// <summary>B = a/(gA) [s/m²].</summary>
    internal double ImpedanceSPerM2 { get; }

    internal double InflowM3PerS => flow[0];

    /// <summary>Flow into the body.</summary>
    internal double EndFlowM3PerS => flow[Reaches];

    internal bool Cavitating => cavitating;

    /// <summary>Water held above that of a pipe at head 0, cavities taken off [m³].</summary>
    internal double StoredM3()
    {
        var sum = 0.5 * (head[0] + head[Reaches]);
        var empty = 0.0;
        for (var i = 1; i < Reaches; i++)
        {
            sum += head[i] + relaxed[i];
            empty += cavity[i];
        }

        var perHead = Constants.GravityMPerS2 * pipe.AreaM2 / (waveSpeed * waveSpeed);
        return perHead * pipe.LengthM / Reaches * sum - empty;
    }

    /// <summary>Lets the water run at one speed, heads as they are: a state to start checks from.</summary>
    internal void StartAt(double flowM3PerS) => Array.Fill(flow, flowM3PerS);

    /// <summary>
    /// Moves all nodes but the body's one step on; returns what arrives at the body, C⁺ = h + B·Q less friction [m].
    /// <see cref="Finish"/> must follow.
    /// </summary>
    internal double Advance()
    {
        var friction = frictionPerFactor * FrictionFactor();
        var last = cavitating ? outFlow[Reaches - 1] : flow[Reaches - 1];
        var arriving = Plus(Reaches - 1, last, friction);
        if (cavitating || !TryAdvanceFull(friction))
        {
            AdvanceWithCavities(friction);
        }

        AdvanceIntake(friction);
        return arriving;
    }

    /// <summary>Ends the step with what the body decided.</summary>
    internal void Finish(double bodyHeadM, double bodyFlowM3PerS)
    {
        nextHead[Reaches] = bodyHeadM;
        nextFlow[Reaches] = bodyFlowM3PerS;
        (head, nextHead) = (nextHead, head);
        (flow, nextFlow) = (nextFlow, flow);
        if (relaxation > 0)
        {
            Relax();
        }

        if (cavitating)
        {
            SettleCavities();
        }
    }

    /// <summary>
    /// The slow give takes up head (or returns it) at each node, what one loses the other gains: r′ = (χ h − r)/T, h′ = −r′.
    /// Both move together, so the step is taken exactly.
    /// </summary>
    private void Relax()
    {
        var width = Vector<double>.Count;
        var share = new Vector<double>(relaxation);
        var give = new Vector<double>(pipe.SlowGive);
        var i = 1;
        for (; i + width <= Reaches; i += width)
        {
            var h = new Vector<double>(head, i);
            var r = new Vector<double>(relaxed, i);
            var taken = share * (give * h - r);
            (h - taken).CopyTo(head, i);
            (r + taken).CopyTo(relaxed, i);
        }

        for (; i < Reaches; i++)
        {
            var taken = relaxation * (pipe.SlowGive * head[i] - relaxed[i]);
            head[i] -= taken;
            relaxed[i] += taken;
        }
    }

    private double FrictionFactor()
    {
        if (viscosityM2PerS <= 0 || stepsToNextFactor-- > 0)
        {
            return frictionFactor;
        }

        stepsToNextFactor = StepsPerFactor;
        var mean = 0.5 * (flow[0] + flow[Reaches]);
        var reynolds = Friction.Reynolds(mean / pipe.AreaM2, pipe.BoreM, viscosityM2PerS);
        // Below Re 1 friction is nothing against inertia, while 64/Re grows without bound.
        frictionFactor = Friction.DarcyFactor(Math.Max(reynolds, 1), pipe.RoughnessM / pipe.BoreM);
        return frictionFactor;
    }

    /// <summary>All nodes full of water; false (and nothing kept) when a node falls to vapour pressure.</summary>
    private bool TryAdvanceFull(double friction)
    {
        var width = Vector<double>.Count;
        var b = new Vector<double>(ImpedanceSPerM2);
        var r = new Vector<double>(friction);
        var half = new Vector<double>(0.5);
        var perB = new Vector<double>(0.5 / ImpedanceSPerM2);
        var lowest = new Vector<double>(double.MaxValue);
        var i = 1;
        for (; i + width <= Reaches; i += width)
        {
            var left = new Vector<double>(flow, i - 1);
            var right = new Vector<double>(flow, i + 1);
            var plus = new Vector<double>(head, i - 1) + left * (b - r * Vector.Abs(left));
            var minus = new Vector<double>(head, i + 1) - right * (b - r * Vector.Abs(right));
            var h = half * (plus + minus);
            h.CopyTo(nextHead, i);
            (perB * (plus - minus)).CopyTo(nextFlow, i);
            lowest = Vector.Min(lowest, h - new Vector<double>(vapourHead, i));
        }

        var margin = double.MaxValue;
        for (var k = 0; k < width; k++)
        {
            margin = Math.Min(margin, lowest[k]);
        }

        for (; i < Reaches; i++)
        {
            var plus = Plus(i - 1, flow[i - 1], friction);
            var minus = Minus(i + 1, flow[i + 1], friction);
            nextHead[i] = 0.5 * (plus + minus);
            nextFlow[i] = (plus - minus) / (2 * ImpedanceSPerM2);
            margin = Math.Min(margin, nextHead[i] - vapourHead[i]);
        }

        if (margin >= 0)
        {
            return true;
        }

        flow.CopyTo(outFlow, 0);
        cavitating = true;
        return false;
    }

    /// <summary>
    /// Nodes may hold vapour: the head stays at vapour pressure while the cavity, by the backward difference of outflow
    /// less inflow, is above 0. A closing cavity closes exactly, so no water is made or lost.
    /// </summary>
    private void AdvanceWithCavities(double friction)
    {
        var leftOut = outFlow[0];
        for (var i = 1; i < Reaches; i++)
        {
            var plus = Plus(i - 1, leftOut, friction);
            var minus = Minus(i + 1, flow[i + 1], friction);
            leftOut = outFlow[i];
            var h = 0.5 * (plus + minus - ImpedanceSPerM2 * cavity[i] / StepS);
            if (h >= vapourHead[i])
            {
                cavity[i] = 0;
            }
            else
            {
                h = vapourHead[i];
                cavity[i] += StepS * (2 * h - plus - minus) / ImpedanceSPerM2;
            }

            nextHead[i] = h;
            nextFlow[i] = (plus - h) / ImpedanceSPerM2;
            outFlow[i] = (h - minus) / ImpedanceSPerM2;
        }
    }

    private void SettleCavities()
    {
        outFlow[0] = flow[0];
        outFlow[Reaches] = flow[Reaches];
        for (var i = 1; i < Reaches; i++)
        {
            if (cavity[i] > 0 || outFlow[i] != flow[i])
            {
                return;
            }
        }

        cavitating = false;
    }

    private void AdvanceIntake(double friction)
    {
        var drive = supply.HeadM - Minus(1, flow[1], friction);
        var loss = drive >= 0 ? entranceLoss : exitLoss;
        var b = ImpedanceSPerM2;
        var q = 2 * drive / (b + Math.Sqrt(b * b + 4 * loss * Math.Abs(drive)));
        nextFlow[0] = q;
        nextHead[0] = supply.HeadM - loss * q * Math.Abs(q);
    }

    private double Plus(int node, double q, double friction) =>
        head[node] + q * (ImpedanceSPerM2 - friction * Math.Abs(q));

    private double Minus(int node, double q, double friction) =>
        head[node] - q * (ImpedanceSPerM2 - friction * Math.Abs(q));
}
