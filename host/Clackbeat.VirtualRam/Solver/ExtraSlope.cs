using System.Numerics;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>What a characteristic loses beside steady friction. As a type argument it costs nothing where it is not wanted.</summary>
internal interface IExtraSlope
{
    /// <summary>Takes the loss off the characteristics that meet at the nodes from <paramref name="i"/> on.</summary>
    void Apply(
        ref Vector<double> plus, ref Vector<double> minus, in Vector<double> left, in Vector<double> right, double[] flow, double[] past, int i);
}

/// <summary>Steady friction alone.</summary>
internal readonly struct Steady : IExtraSlope
{
    /// <inheritdoc/>
    public void Apply(
        ref Vector<double> plus, ref Vector<double> minus, in Vector<double> left, in Vector<double> right, double[] flow, double[] past, int i)
    {
    }
}

/// <summary>Unsteady friction, k B (ΔQ in time + sgn(Q) |ΔQ along a reach|, by central difference).</summary>
/// <param name="head">k B [s/m²].</param>
internal readonly struct Unsteady(double head) : IExtraSlope
{
    private readonly Vector<double> _slope = new(head);

    /// <inheritdoc/>
    public void Apply(
        ref Vector<double> plus, ref Vector<double> minus, in Vector<double> left, in Vector<double> right, double[] flow, double[] past, int i)
    {
        var middle = new Vector<double>(flow, i);
        var half = new Vector<double>(0.5);
        plus -= _slope * (left - new Vector<double>(past, i - 1) + Vector.CopySign(half * (middle - new Vector<double>(flow, i - 2)), left));
        minus += _slope * (right - new Vector<double>(past, i + 1) + Vector.CopySign(half * (new Vector<double>(flow, i + 2) - middle), right));
    }
}
