using System.Runtime.Intrinsics;
using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Signal.Flow;

/// <summary>
/// Velocity at the body from the head at the body, for a pipe of sections or with a wall that creeps: the method of characteristics on a
/// grid of reaches which a wave passes in one step (E. B. Wylie, V. L. Streeter, Fluid Transients in Systems, 1993, ch. 3), reservoir
/// upstream, the measured head at the body at all times. At a joint h = (C⁺B₂ + C⁻B₁)/(B₁ + B₂). Retarded strain of the wall as
/// Kelvin–Voigt elements is taken out of both characteristics (D. Covas et al., J. Hydraul. Res. 43 (2005) 56).
/// </summary>
/// <remarks>
/// Four runs go side by side, one in each lane of a vector: the pipe as it is, and with the supply head, the losses and the starting
/// velocity each moved a little, which gives the sensitivities at hardly any cost. The single elastic pipe has its own, faster
/// way in <see cref="ColumnInversion"/>.
/// </remarks>
internal sealed class PipeGrid
{
    // Few reaches place the friction and the joints coarsely; many cost time and follow nothing that the samples show.
    private const int FewestReaches = 8;
    private const int MostReaches = 24;

    // Moves of the lanes: small beside what the fit tells apart, large beside rounding.
    private const double Move = 1e-3;

    private readonly int _reaches;
    private readonly double _stepS;
    private readonly double[] _impedance;
    private readonly double[] _friction;
    private readonly Strain[] _strains;
    private readonly Vector256<double>[] _plus;
    private readonly Vector256<double>[] _minus;
    private Vector256<double>[] _head;
    private Vector256<double>[] _velocity;
    private readonly ColumnModel _model;

    /// <summary>Cuts a pipe into reaches.</summary>
    /// <param name="model">The column; its shape is not null.</param>
    /// <param name="sampleStepS">Mean step of the samples [s].</param>
    public PipeGrid(in ColumnModel model, double sampleStepS)
    {
        _model = model;
        PipeShape shape = model.Shape!;
        double transitS = 0.5 * model.PeriodS;
        int[] counts = Counts(shape, (int)Math.Clamp(Math.Round(transitS / sampleStepS), FewestReaches, MostReaches));
        _reaches = counts.Sum();
        _stepS = transitS / _reaches;
        (_impedance, _friction) = (new double[_reaches], new double[_reaches]);
        int reach = 0;
        double longer = model.LengthM / shape.LengthM;
        for (int p = 0; p < counts.Length; p++)
        {
            PipePiece piece = shape.Pieces[p];
            for (int i = 0; i < counts[p]; i++, reach++)
            {
                // Inertia is what the flow hangs on: the reach keeps its length, and the wave speed gives way.
                _impedance[reach] = longer * piece.LengthM / counts[p] / _stepS / Constants.GravityMPerS2 * piece.VelocityRatio;
                _friction[reach] = model.PipeLoss * piece.LossShare / counts[p];
            }
        }

        _strains = Strains(shape, counts);
        (_plus, _minus) = (new Vector256<double>[_reaches + 1], new Vector256<double>[_reaches + 1]);
        (_head, _velocity) = (new Vector256<double>[_reaches + 1], new Vector256<double>[_reaches + 1]);
    }

    /// <summary>Works out the velocity at each sample, and where sensitivities are asked for how it moves with what is fitted.</summary>
    /// <param name="timeS">Times [s], rising.</param>
    /// <param name="headM">Head at the body as the sensor saw it [m above datum].</param>
    /// <param name="startVelocityMPerS">Velocity of the whole column at the first sample.</param>
    /// <param name="lossFactor">Factor on all losses that the model already holds.</param>
    /// <param name="repeatS">Time after which the record repeats itself, for what the wall remembers [s]; 0 takes the whole record.</param>
    /// <param name="velocityMPerS">Takes the velocities at the body [m/s].</param>
    /// <param name="sensitivities">Takes the sensitivities; empty when they aren't asked for.</param>
    public void Run(
        ReadOnlySpan<double> timeS, ReadOnlySpan<double> headM, double startVelocityMPerS, double lossFactor, double repeatS,
        Span<double> velocityMPerS, Span<ColumnSensitivity> sensitivities)
    {
        double[] heads = Evenly(timeS, headM);
        bool withSensitivities = !sensitivities.IsEmpty;
        double move = withSensitivities ? Move : 0;
        Vector256<double> supply = Vector256.Create(_model.SupplyHeadM + _model.BiasM) + Vector256.Create(0, move, 0, 0);
        Vector256<double> losses = Vector256<double>.One + (Vector256.Create(0, 0, move, 0) / lossFactor);
        Begin(heads, supply, Vector256.Create(startVelocityMPerS) + Vector256.Create(0, 0, 0, move), repeatS);
        Vector256<double> now = _velocity[_reaches];
        Vector256<double> last = now;
        int step = 0;
        for (int i = 0; i < timeS.Length; i++)
        {
            double place = (timeS[i] - timeS[0]) / _stepS;
            while (step < place && step + 1 < heads.Length)
            {
                last = now;
                Step(heads[++step], supply, losses);
                now = _velocity[_reaches];
            }

            double share = Math.Clamp(place - (step - 1), 0, 1);
            Vector256<double> at = last + (share * (now - last));
            velocityMPerS[i] = at[0];
            if (withSensitivities)
            {
                sensitivities[i] = new ColumnSensitivity((at[1] - at[0]) / Move, (at[2] - at[0]) / Move, (at[3] - at[0]) / Move);
            }
        }
    }

    private void Step(double bodyHeadM, Vector256<double> supply, Vector256<double> losses)
    {
        int n = _reaches;
        for (int i = 0; i < n; i++)
        {
            // What leaves the upper end of a reach downwards and its lower end upwards, less what friction takes on the way.
            Vector256<double> friction = _friction[i] * losses;
            Vector256<double> down = _velocity[i];
            Vector256<double> up = _velocity[i + 1];
            _plus[i] = _head[i] + (_impedance[i] * down) - (friction * down * Vector256.Abs(down));
            _minus[i + 1] = _head[i + 1] - (_impedance[i] * up) + (friction * up * Vector256.Abs(up));
        }

        for (int s = 0; s < _strains.Length; s++)
        {
            _strains[s].Yield(_head);
        }

        for (int i = 1; i < n; i++)
        {
            double per = 1 / (_impedance[i - 1] + _impedance[i]);
            _velocity[i] = per * (_plus[i - 1] - _minus[i + 1]);
            _head[i] = (per * ((_impedance[i] * _plus[i - 1]) + (_impedance[i - 1] * _minus[i + 1]))) - Taken(i);
        }

        Vector256<double> entrance = _model.EntranceLoss * losses;
        Vector256<double> atIntake = Root(entrance, _impedance[0], supply - (_minus[1] - Taken(0)));
        _velocity[0] = atIntake;
        _head[0] = supply - (entrance * atIntake * Vector256.Abs(atIntake));
        _head[n] = Vector256.Create(bodyHeadM);
        _velocity[n] = (_plus[n - 1] - Taken(n) - _head[n]) / _impedance[n - 1];
    }

    private Vector256<double> Taken(int node)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        foreach (Strain strain in _strains)
        {
            sum += strain.Taken[node];
        }

        return sum;
    }

    /// <summary>A column that moves as one, its head falling evenly from the intake to the mean head of the first period.</summary>
    private void Begin(double[] heads, Vector256<double> supply, Vector256<double> start, double repeatS)
    {
        int period = Math.Min(heads.Length, 2 * _reaches);
        double body = heads.AsSpan(0, period).ToArray().Average();
        int repeat = repeatS > 0 ? Math.Clamp((int)Math.Round(repeatS / _stepS), 1, heads.Length) : heads.Length;
        double inertia = 0;
        double whole = _impedance.Sum();
        for (int i = 0; i <= _reaches; i++)
        {
            double along = inertia / whole;
            _velocity[i] = start;
            _head[i] = (supply * (1 - along)) + Vector256.Create(body * along);
            foreach (Strain strain in _strains)
            {
                strain.Begin(i, heads.AsSpan(0, repeat), along, supply);
            }

            inertia += i < _reaches ? _impedance[i] : 0;
        }
    }

    /// <summary>The heads at the grid's own steps, each the mean over a step, so that their integral over time is that of the samples.</summary>
    private double[] Evenly(ReadOnlySpan<double> timeS, ReadOnlySpan<double> headM)
    {
        int count = Math.Max(2, (int)Math.Ceiling((timeS[^1] - timeS[0]) / _stepS) + 1);
        double[] heads = new double[count];
        (int behind, double area, double before) = (0, 0, 0);
        for (int k = 0; k < count; k++)
        {
            // The integral up to half a step after this instant, the record held at its ends.
            double untilS = Math.Min(timeS[0] + ((k + 0.5) * _stepS), timeS[^1]);
            while (behind + 1 < timeS.Length && timeS[behind + 1] <= untilS)
            {
                area += 0.5 * (headM[behind] + headM[behind + 1]) * (timeS[behind + 1] - timeS[behind]);
                behind++;
            }

            int ahead = Math.Min(behind + 1, timeS.Length - 1);
            double spanS = timeS[ahead] - timeS[behind];
            double restS = untilS - timeS[behind];
            double risePerS = spanS > 0 ? (headM[ahead] - headM[behind]) / spanS : 0;
            double upTo = area + (restS * (headM[behind] + (0.5 * risePerS * restS)));
            double fromS = Math.Max(timeS[0], timeS[0] + ((k - 0.5) * _stepS));
            heads[k] = untilS - fromS > 1e-3 * _stepS ? (upTo - before) / (untilS - fromS) : headM[^1];
            before = upTo;
        }

        return heads;
    }

    /// <summary>
    /// Reaches of each piece: among numbers from the one wanted up to half as many again, the one that bends the pieces' wave
    /// times least.
    /// </summary>
    private static int[] Counts(PipeShape shape, int wanted)
    {
        if (shape.Pieces.Count == 1)
        {
            return [wanted];
        }

        double transitS = shape.LengthM / shape.WaveSpeedMPerS;
        return Enumerable.Range(wanted, (wanted / 2) + 1)
            .Select(n => shape.Pieces.Select(p => Math.Max(1, (int)Math.Round(n * p.LengthM / p.WaveSpeedMPerS / transitS))).ToArray())
            .MinBy(counts => shape.Pieces.Select((p, i) =>
                Math.Abs(Math.Log(p.LengthM / p.WaveSpeedMPerS / transitS * counts.Sum() / counts[i]))).Max())!;
    }

    private Strain[] Strains(PipeShape shape, int[] counts)
    {
        var strains = new List<Strain>();
        int from = 0;
        for (int p = 0; p < counts.Length; p++)
        {
            int to = from + counts[p];
            foreach (Hydraulics.Pipes.CreepElement element in shape.Pieces[p].Creep)
            {
                strains.Add(new Strain(_reaches, from, to, element, _stepS));
            }

            from = to;
        }

        return [.. strains];
    }

    /// <summary>The root of r v|v| + b v = c.</summary>
    private static Vector256<double> Root(Vector256<double> r, double b, Vector256<double> c)
    {
        var size = Vector256.Abs(c);
        Vector256<double> root = 2 * size / (Vector256.Create(b) + Vector256.Sqrt(Vector256.Create(b * b) + (4 * r * size)));
        return Vector256.ConditionalSelect(Vector256.LessThan(c, Vector256<double>.Zero), -root, root);
    }

    /// <summary>One Kelvin–Voigt element of one piece's wall at the nodes the piece touches: τ ṙ = χ h − r, r as head.</summary>
    private sealed class Strain(int reaches, int from, int to, Hydraulics.Pipes.CreepElement element, double stepS)
    {
        private readonly Vector256<double>[] _strain = new Vector256<double>[reaches + 1];
        private readonly double _part = 1 - Math.Exp(-stepS / element.RetardationS);

        /// <summary>What each node took up in the last step [m].</summary>
        public Vector256<double>[] Taken { get; } = new Vector256<double>[reaches + 1];

        /// <summary>Starts with what is remembered of a record that had come again and again before.</summary>
        public void Begin(int node, ReadOnlySpan<double> heads, double along, Vector256<double> supply)
        {
            double sum = 0;
            for (int k = 0; k < heads.Length; k++)
            {
                sum += _part * (heads[k] - sum);
            }

            double body = sum / (1 - Math.Pow(1 - _part, heads.Length));
            _strain[node] = ((supply * (1 - along)) + Vector256.Create(body * along)) * element.Share;
        }

        /// <summary>Takes up what a step gives it. A joint belongs to both pieces by halves.</summary>
        public void Yield(Vector256<double>[] head)
        {
            for (int i = from; i <= to; i++)
            {
                double share = (i == from && from > 0) || (i == to && to < reaches) ? 0.5 : 1;
                Vector256<double> taken = _part * ((element.Share * head[i]) - _strain[i]);
                _strain[i] += taken;
                Taken[i] = share * taken;
            }
        }
    }
}
