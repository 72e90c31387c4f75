using System.Numerics;
using Clackbeat.Hydraulics.Pipes;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// One part of a pipe's give that follows the head with a delay, at every inner node: r′ = (χ h − r)/T, and what it takes up the
/// prompt head loses, h′ = −r′. Both move together, so the step is taken exactly and no water is made or lost.
/// </summary>
internal sealed class RetardedStrain
{
    private readonly double[] _relaxed;
    private readonly double _share;
    private readonly double _taken;

    /// <summary>Give at rest under a head.</summary>
    /// <param name="element">Share of the prompt give, and the time constant T.</param>
    /// <param name="stepS">Time step.</param>
    /// <param name="nodes">Nodes of the section; the two ends take no part.</param>
    /// <param name="restHeadM">Head of the rest.</param>
    internal RetardedStrain(CreepElement element, double stepS, int nodes, double restHeadM)
    {
        _share = element.Share;
        _taken = (1 - Math.Exp(-(1 + _share) / element.RetardationS * stepS)) / (1 + _share);
        _relaxed = new double[nodes];
        Array.Fill(_relaxed, _share * restHeadM);
    }

    /// <summary>Head taken up so far at a node [m].</summary>
    internal double At(int node) => _relaxed[node];

    /// <summary>Takes a step.</summary>
    internal void Relax(double[] head)
    {
        int width = Vector<double>.Count;
        int last = head.Length - 1;
        var take = new Vector<double>(_taken);
        var give = new Vector<double>(_share);
        int i = 1;
        for (; i + width <= last; i += width)
        {
            var h = new Vector<double>(head, i);
            var r = new Vector<double>(_relaxed, i);
            Vector<double> moved = take * (give * h - r);
            (h - moved).CopyTo(head, i);
            (r + moved).CopyTo(_relaxed, i);
        }

        for (; i < last; i++)
        {
            double moved = _taken * (_share * head[i] - _relaxed[i]);
            head[i] -= moved;
            _relaxed[i] += moved;
        }
    }
}
