using System.Numerics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Solver;

/// <summary>
/// One section of drive pipe by the method of characteristics on a fixed grid of reaches a·Δt (E. B. Wylie and V. L. Streeter,
/// Fluid Transients in Systems, 1993, ch. 3). Its two end nodes are set by its neighbours; its inner nodes hold water,
/// vapour (ibid. ch. 8) or free gas (discrete gas cavities, ibid. §8.4).
/// </summary>
/// <remarks>
/// Without friction and delayed give the invariants h ± B·Q move one reach a step unchanged, so waves neither smear nor decay.
/// Nodes that are advanced several at once and one by one reckon in the same order, so results don't depend on the processor's width.
/// Unsteady friction is that of <see cref="UnsteadyFriction"/>, taken from the last step. The factors of friction are those of the
/// section's mean speed: the column of a ram is short and moves almost as one.
/// </remarks>
internal sealed class PipeSection
{
    /// <summary>The mean speed changes little in a few steps, and the factors less: they are looked up only so often.</summary>
    private const int StepsPerFactor = 15;

    private readonly PipeParameters _pipe;
    private readonly double _stepS;
    private readonly double _viscosityM2PerS;
    private readonly double _unsteady;
    private readonly double _frictionPerFactor;
    private readonly double _storedPerHead;
    private readonly double[] _vapourHead;
    private readonly double[] _cavity;
    private readonly RetardedStrain[] _gives;
    private readonly double _gasTimesHead;
    private double[] _head;
    private double[] _nextHead;
    private double[] _flow;
    private double[] _nextFlow;
    private double[] _pastFlow;
    private double[] _outFlow;
    private double[] _nextOut;
    private bool _parted;
    private double _friction;
    private double _unsteadyHead;
    private int _stepsToNextFactor;

    /// <summary>A section at rest.</summary>
    internal PipeSection(PipeParameters pipe, RamParameters ram, double stepS, int reaches, double mouthM, double endM)
    {
        _pipe = pipe;
        _stepS = stepS;
        Reaches = reaches;
        _viscosityM2PerS = ram.Water.KinematicViscosityM2PerS;
        _unsteady = _viscosityM2PerS > 0 ? ram.UnsteadyFriction : 0;
        double area = pipe.AreaM2;
        double waveSpeed = pipe.LengthM / (reaches * stepS);
        ImpedanceSPerM2 = waveSpeed / (Constants.GravityMPerS2 * area);
        _frictionPerFactor = pipe.LengthM / reaches / pipe.BoreM / (2 * Constants.GravityMPerS2 * area * area);
        _storedPerHead = Constants.GravityMPerS2 * area / (waveSpeed * waveSpeed) * pipe.LengthM / reaches;
        int nodes = reaches + 1;
        (_head, _nextHead, _flow, _nextFlow) = (new double[nodes], new double[nodes], new double[nodes], new double[nodes]);
        (_pastFlow, _outFlow, _nextOut, _cavity) = (new double[nodes], new double[nodes], new double[nodes], new double[nodes]);
        double vapour = -(ram.Water.AtmospherePa - ram.Water.VapourPressurePa)
            / (ram.Water.DensityKgPerM3 * Constants.GravityMPerS2);
        _vapourHead = [.. Enumerable.Range(0, nodes).Select(i => vapour + mouthM + (endM - mouthM) * i / reaches)];
        Array.Fill(_head, ram.Supply.HeadM);
        // The inner nodes hold the gas of the end nodes' halves too.
        _gasTimesHead = pipe.GasShare * area * pipe.LengthM / (reaches - 1) * ram.Water.AtmospherePa
            / (ram.Water.DensityKgPerM3 * Constants.GravityMPerS2);
        for (int i = 1; i < reaches && _gasTimesHead > 0; i++)
        {
            _cavity[i] = _gasTimesHead / (_head[i] - _vapourHead[i]);
        }

        _gives = [.. Elements(pipe).Select(e => new RetardedStrain(e, stepS, nodes, ram.Supply.HeadM))];
    }

    internal int Reaches { get; }

    /// <summary>B = a/(gA) [s/m²].</summary>
    internal double ImpedanceSPerM2 { get; }

    internal double UpperFlowM3PerS => _flow[0];

    internal double LowerFlowM3PerS => _flow[Reaches];

    /// <summary>Head and flow at a place, straight between nodes.</summary>
    /// <param name="share">Place, 0 at the upper end to 1 at the lower.</param>
    internal (double HeadM, double FlowM3PerS) At(double share)
    {
        double place = Math.Clamp(share, 0, 1) * Reaches;
        int i = Math.Min(Reaches - 1, (int)place);
        double between = place - i;
        return (_head[i] + (between * (_head[i + 1] - _head[i])), _flow[i] + (between * (_flow[i + 1] - _flow[i])));
    }

    internal double AreaM2 => _pipe.AreaM2;

    internal double LengthM => _pipe.LengthM;

    internal double LowerVapourHeadM => _vapourHead[Reaches];

    /// <summary>Vapour stands in it.</summary>
    internal bool Cavitating => _parted;

    private bool Gassy => _gasTimesHead > 0;

    /// <summary>Water held above that of a pipe at head 0, cavities and gas taken off [m³].</summary>
    internal double StoredM3()
    {
        double sum = 0.5 * (_head[0] + _head[Reaches]);
        double empty = 0.0;
        for (int i = 1; i < Reaches; i++)
        {
            sum += _head[i];
            foreach (RetardedStrain give in _gives)
            {
                sum += give.At(i);
            }

            empty += _cavity[i];
        }

        return _storedPerHead * sum - empty;
    }

    internal void StartAt(double flowM3PerS)
    {
        foreach (double[] array in new[] { _flow, _pastFlow, _outFlow })
        {
            Array.Fill(array, flowM3PerS);
        }
    }

    /// <summary>Takes the factors of friction for the steps to come.</summary>
    internal void Prepare()
    {
        if (_viscosityM2PerS <= 0 || _stepsToNextFactor-- > 0)
        {
            return;
        }

        _stepsToNextFactor = StepsPerFactor;
        double mean = 0.5 * (_flow[0] + _flow[Reaches]);
        // Below Re 1 friction is nothing against inertia, while 64/Re grows without bound.
        double reynolds = Math.Max(1, Friction.Reynolds(mean / _pipe.AreaM2, _pipe.BoreM, _viscosityM2PerS));
        _friction = _frictionPerFactor * Friction.DarcyFactor(reynolds, _pipe.RoughnessM / _pipe.BoreM);
        _unsteadyHead = _unsteady > 0 ? _unsteady * UnsteadyFriction.Coefficient(reynolds) * ImpedanceSPerM2 * Reaches / (Reaches - 1) : 0;
    }

    /// <summary>What arrives at the lower end, C⁺ = h + B·Q less friction [m].</summary>
    internal double ArrivingM() => Plus(Reaches - 1);

    /// <summary>What arrives at the upper end, C⁻ = h − B·Q plus friction [m].</summary>
    internal double ReturningM() => Minus(1);

    /// <summary>Moves the inner nodes one step on.</summary>
    internal void AdvanceInner()
    {
        if (Gassy)
        {
            AdvanceWithGas();
        }
        else if (_parted || !TryAdvanceFull())
        {
            AdvanceWithCavities();
        }
    }

    internal void SetUpper(double headM, double flowM3PerS) => (_nextHead[0], _nextFlow[0]) = (headM, flowM3PerS);

    internal void SetLower(double headM, double flowM3PerS) => (_nextHead[Reaches], _nextFlow[Reaches]) = (headM, flowM3PerS);

    /// <summary>Ends the step once both ends are set.</summary>
    internal void Finish()
    {
        (_head, _nextHead) = (_nextHead, _head);
        (_pastFlow, _flow, _nextFlow) = (_flow, _nextFlow, _pastFlow);
        foreach (RetardedStrain give in _gives)
        {
            give.Relax(_head);
        }

        if (_parted || Gassy)
        {
            (_outFlow[0], _outFlow[Reaches]) = (_flow[0], _flow[Reaches]);
            _parted = _parted && !Settled();
        }
    }

    private static IEnumerable<CreepElement> Elements(PipeParameters pipe)
    {
        if (pipe.RetardedCompliance > 0)
        {
            yield return new CreepElement(pipe.RetardationTimeS, pipe.RetardedCompliance);
        }

        // The prompt give is smaller than the one the wave speed stands for, so each share of it is larger.
        foreach (CreepElement element in pipe.Creep)
        {
            yield return element with { Share = element.Share * (1 + pipe.RetardedCompliance) };
        }
    }

    /// <summary>All nodes full of water; false (and nothing kept) when a node falls to vapour pressure.</summary>
    private bool TryAdvanceFull()
    {
        double margin = _unsteadyHead > 0 ? AdvanceVectors(new Unsteady(_unsteadyHead)) : AdvanceVectors(default(Steady));
        if (margin >= 0)
        {
            return true;
        }

        _flow.CopyTo(_outFlow, 0);
        _parted = true;
        return false;
    }

    private double AdvanceVectors<T>(T extra)
        where T : struct, IExtraSlope
    {
        int width = Vector<double>.Count;
        var impedance = new Vector<double>(ImpedanceSPerM2);
        var half = new Vector<double>(0.5);
        var perB = new Vector<double>(0.5 / ImpedanceSPerM2);
        var lowest = new Vector<double>(double.MaxValue);
        double margin = AdvanceNode(1);
        int i = 2;
        // The first and the last inner node are left over: an end loses nothing by unsteady friction.
        for (; i + width < Reaches; i += width)
        {
            (Vector<double> plus, Vector<double> minus) = Characteristics(i, _flow, impedance, extra);
            Vector<double> h = half * (plus + minus);
            h.CopyTo(_nextHead, i);
            (perB * (plus - minus)).CopyTo(_nextFlow, i);
            lowest = Vector.Min(lowest, h - new Vector<double>(_vapourHead, i));
        }

        for (int k = 0; k < width; k++)
        {
            margin = Math.Min(margin, lowest[k]);
        }

        for (; i < Reaches; i++)
        {
            margin = Math.Min(margin, AdvanceNode(i));
        }

        return margin;
    }

    /// <summary>One node full of water; returns how far it stays above vapour [m].</summary>
    private double AdvanceNode(int i)
    {
        double plus = Plus(i - 1);
        double minus = Minus(i + 1);
        _nextHead[i] = 0.5 * (plus + minus);
        _nextFlow[i] = 0.5 / ImpedanceSPerM2 * (plus - minus);
        return _nextHead[i] - _vapourHead[i];
    }

    /// <summary>
    /// Nodes may hold vapour: the head stays at vapour pressure while the cavity, by the backward difference of outflow
    /// less inflow, is above 0. A closing cavity closes exactly, so no water is made or lost.
    /// </summary>
    private void AdvanceWithCavities()
    {
        if (_unsteadyHead > 0)
        {
            AdvanceCavityVectors(new Unsteady(_unsteadyHead));
        }
        else
        {
            AdvanceCavityVectors(default(Steady));
        }

        (_outFlow, _nextOut) = (_nextOut, _outFlow);
    }

    private void AdvanceCavityVectors<T>(T extra)
        where T : struct, IExtraSlope
    {
        int width = Vector<double>.Count;
        var impedance = new Vector<double>(ImpedanceSPerM2);
        var half = new Vector<double>(0.5);
        var step = new Vector<double>(_stepS);
        AdvanceCavityNode(1);
        int i = 2;
        for (; i + width < Reaches; i += width)
        {
            (Vector<double> plus, Vector<double> minus) = Characteristics(i, _outFlow, impedance, extra);
            var vapour = new Vector<double>(_vapourHead, i);
            var cavity = new Vector<double>(_cavity, i);
            Vector<double> full = half * (plus + minus - (impedance * cavity / step));
            var isFull = Vector.GreaterThanOrEqual(full, vapour);
            var h = Vector.ConditionalSelect(isFull, full, vapour);
            Vector.ConditionalSelect(isFull, Vector<double>.Zero, cavity + (step * ((2 * h) - plus - minus) / impedance)).CopyTo(_cavity, i);
            Keep(i, plus, minus, h, impedance);
        }

        for (; i < Reaches; i++)
        {
            AdvanceCavityNode(i);
        }
    }

    private void AdvanceCavityNode(int i)
    {
        double plus = Plus(i - 1);
        double minus = Minus(i + 1);
        double h = 0.5 * (plus + minus - ImpedanceSPerM2 * _cavity[i] / _stepS);
        if (h >= _vapourHead[i])
        {
            _cavity[i] = 0;
        }
        else
        {
            h = _vapourHead[i];
            _cavity[i] += _stepS * (2 * h - plus - minus) / ImpedanceSPerM2;
        }

        Keep(i, plus, minus, h);
    }

    /// <summary>
    /// Every inner node holds gas that keeps its temperature, V (h − h_vapour) constant; its volume grows by outflow less inflow.
    /// With both taken at the new time the head follows from a square.
    /// </summary>
    private void AdvanceWithGas()
    {
        if (_unsteadyHead > 0)
        {
            AdvanceGasVectors(new Unsteady(_unsteadyHead));
        }
        else
        {
            AdvanceGasVectors(default(Steady));
        }

        (_outFlow, _nextOut) = (_nextOut, _outFlow);
    }

    private void AdvanceGasVectors<T>(T extra)
        where T : struct, IExtraSlope
    {
        int width = Vector<double>.Count;
        double perB = _stepS / ImpedanceSPerM2;
        var impedance = new Vector<double>(ImpedanceSPerM2);
        AdvanceGasNode(1, perB);
        int i = 2;
        for (; i + width < Reaches; i += width)
        {
            (Vector<double> plus, Vector<double> minus) = Characteristics(i, _outFlow, impedance, extra);
            var vapour = new Vector<double>(_vapourHead, i);
            var cavity = new Vector<double>(_cavity, i);
            Vector<double> b = cavity + (perB * ((2 * vapour) - plus - minus));
            var root = Vector.SquareRoot((b * b) + new Vector<double>(8 * perB * _gasTimesHead));
            var above = Vector.ConditionalSelect(
                Vector.GreaterThan(b, Vector<double>.Zero), new Vector<double>(2 * _gasTimesHead) / (b + root), (root - b) / new Vector<double>(4 * perB));
            Vector<double> h = vapour + above;
            (cavity + (perB * ((2 * h) - plus - minus))).CopyTo(_cavity, i);
            Keep(i, plus, minus, h, impedance);
        }

        for (; i < Reaches; i++)
        {
            AdvanceGasNode(i, perB);
        }
    }

    private void AdvanceGasNode(int i, double perB)
    {
        double plus = Plus(i - 1);
        double minus = Minus(i + 1);
        double b = _cavity[i] + perB * (2 * _vapourHead[i] - plus - minus);
        double root = Math.Sqrt(b * b + 8 * perB * _gasTimesHead);
        double above = b > 0 ? 2 * _gasTimesHead / (b + root) : (root - b) / (4 * perB);
        double h = _vapourHead[i] + above;
        _cavity[i] += perB * (2 * h - plus - minus);
        Keep(i, plus, minus, h);
    }

    // What arrives at the nodes from i on from above and from below; what leaves a node differs from what enters it where it holds gas or vapour.
    private (Vector<double> Plus, Vector<double> Minus) Characteristics<T>(int i, double[] leaving, in Vector<double> impedance, T extra)
        where T : struct, IExtraSlope
    {
        var friction = new Vector<double>(_friction);
        var left = new Vector<double>(_flow, i - 1);
        var right = new Vector<double>(_flow, i + 1);
        Vector<double> plus = new Vector<double>(_head, i - 1) + (impedance * new Vector<double>(leaving, i - 1)) - (friction * left * Vector.Abs(left));
        Vector<double> minus = new Vector<double>(_head, i + 1) - (impedance * right) + (friction * right * Vector.Abs(right));
        extra.Apply(ref plus, ref minus, left, right, _flow, _pastFlow, i);
        return (plus, minus);
    }

    private void Keep(int i, in Vector<double> plus, in Vector<double> minus, in Vector<double> h, in Vector<double> impedance)
    {
        h.CopyTo(_nextHead, i);
        ((plus - h) / impedance).CopyTo(_nextFlow, i);
        ((h - minus) / impedance).CopyTo(_nextOut, i);
    }

    private void Keep(int i, double plus, double minus, double h)
    {
        _nextHead[i] = h;
        _nextFlow[i] = (plus - h) / ImpedanceSPerM2;
        _nextOut[i] = (h - minus) / ImpedanceSPerM2;
    }

    private bool Settled()
    {
        for (int i = 1; i < Reaches; i++)
        {
            if (_cavity[i] > 0 || _outFlow[i] != _flow[i])
            {
                return false;
            }
        }

        return true;
    }

    private double Plus(int node)
    {
        double q = _flow[node];
        double plus = _head[node] + (ImpedanceSPerM2 * (_parted || Gassy ? _outFlow : _flow)[node]) - (_friction * q * Math.Abs(q));
        return Rubs(node) ? plus - (_unsteadyHead * Change(node, q)) : plus;
    }

    private double Minus(int node)
    {
        double q = _flow[node];
        double minus = _head[node] - (ImpedanceSPerM2 * q) + (_friction * q * Math.Abs(q));
        return Rubs(node) ? minus + (_unsteadyHead * Change(node, q)) : minus;
    }

    // Both characteristics that leave a node lose the same, or water would be made: so the loss goes by the inflow, and the change along
    // the pipe is taken over both sides. For the same reason the two ends lose nothing by unsteady friction; the rest makes up for it.
    private bool Rubs(int node) => _unsteadyHead != 0 && node != 0 && node != Reaches;

    private double Change(int node, double q) => q - _pastFlow[node] + Math.CopySign(0.5 * (_flow[node + 1] - _flow[node - 1]), q);
}
