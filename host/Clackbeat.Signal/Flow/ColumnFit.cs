using System.Buffers;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Signal.Flow;

/// <summary>What is fitted to a record: shared numbers, and one starting velocity for each window.</summary>
internal sealed class ColumnFit
{
    /// <summary>Shared numbers: sensor bias [m], k of the open waste valve [s²/m], loss factor, supply head [m], c of a valve that floats [1/m].</summary>
    public const int SharedCount = 5;

    private const int Bias = 0;
    private const int Valve = 1;
    private const int Losses = 2;

    /// <summary>Place of the supply head among the shared numbers.</summary>
    public const int Supply = 3;

    /// <summary>Place of c of a waste valve that floats.</summary>
    public const int Floating = 4;

    // k is constant only so far: what the law misses, as a head and as a share of the valve's head. The same in every
    // beat, so it does not average out. The head is what the early open phase, where nearly nothing flows, was found to
    // stand from the sensor's true zero (1-8 mm on an independent model's rams, docs/flow-method.md); the share, and that of
    // the waves, gave the flows best on one half of the virtual rams of docs/flow-method.md.
    private const double LawFloorM = 0.004;
    private const double LawShare = 0.01;
    private const double WaveShare = 0.25;
    private const double LossUncertainty = 0.18;
    private const double Outlier = 2.5;
    private const double Settled = 1e-3;

    // So heavy that the number stays where it is.
    private const double Held = 1e12;

    private readonly IReadOnlyList<FlowWindow> _windows;
    private readonly ColumnModel _prior;
    private readonly List<Stretch>[] _stretches;
    private readonly double[] _velocity;
    private readonly ColumnSensitivity[] _sensitivities;
    private bool _settled;

    /// <summary>Prepares a fit.</summary>
    /// <param name="windows">The beats to fit, at least one.</param>
    /// <param name="prior">The column as the site tells it.</param>
    /// <param name="supplyUncertaintyM">Standard uncertainty of the supply head [m].</param>
    /// <param name="noiseM">Standard deviation of the sensor's noise [m].</param>
    /// <param name="openedShare">Part of the open phase after which the waste valve is fully open.</param>
    /// <param name="floatingUncertaintyPerM">Standard uncertainty of c of a valve that floats [1/m]; 0 for one that has a stop.</param>
    /// <param name="followsValve">Whether the law of the open valve is fitted; else the balance of a steady beat stands in for it.</param>
    public ColumnFit(
        IReadOnlyList<FlowWindow> windows, ColumnModel prior, double supplyUncertaintyM, double noiseM,
        double openedShare = OpenPhaseLaw.OpenedShare, double floatingUncertaintyPerM = 0, bool followsValve = true)
    {
        (_windows, _prior, SupplyUncertaintyM, NoiseM, OpenedShare) = (windows, prior, supplyUncertaintyM, noiseM, openedShare);
        (FloatingUncertaintyPerM, FollowsValve) = (floatingUncertaintyPerM, followsValve);
        _stretches = [.. windows.Select(w => StretchesOf(w))];
        int longest = windows.Max(w => w.TimeS.Length);
        (_velocity, _sensitivities) = (new double[longest], new ColumnSensitivity[longest]);
        double bias = FirstGuess.BiasM(windows);
        WaveStep = FirstGuess.WaveStep(windows, prior, bias);
        (StartVelocity, double valve) = FirstGuess.Starts(windows, prior with { BiasM = bias }, _velocity);
        Shared = [bias, valve, 1, prior.SupplyHeadM, 0];
        Covariance = Matrix<double>.Build.Dense(SharedCount, SharedCount);
        StartPull = new double[windows.Count][];
        StartWeight = new double[windows.Count];
    }

    /// <summary>Standard uncertainty the supply head came with [m].</summary>
    public double SupplyUncertaintyM { get; }

    /// <summary>Standard uncertainty c of a floating valve came with [1/m]; 0 where the valve has a stop.</summary>
    public double FloatingUncertaintyPerM { get; }

    /// <summary>Whether the law of the open valve is fitted; else the balance of a steady beat stands in for it.</summary>
    public bool FollowsValve { get; }

    /// <summary>Sum of the weighted squares that are left over, priors included.</summary>
    public double Misfit { get; private set; }

    /// <summary>Standard deviation of the sensor's noise [m].</summary>
    public double NoiseM { get; }

    /// <summary>Part of the open phase after which the waste valve is taken as fully open.</summary>
    public double OpenedShare { get; }

    /// <summary>The shared numbers.</summary>
    public double[] Shared { get; }

    /// <summary>Velocity of the column at the start of each window [m/s].</summary>
    public double[] StartVelocity { get; }

    /// <summary>Covariance of the shared numbers, starting velocities refitted.</summary>
    public Matrix<double> Covariance { get; private set; }

    /// <summary>How far a starting velocity moves when a shared number moves, for each window and number.</summary>
    public double[][] StartPull { get; }

    /// <summary>Weight of each starting velocity with the shared numbers held [s²/m²].</summary>
    public double[] StartWeight { get; }

    /// <summary>Change of velocity a wave from the plateau makes [m/s].</summary>
    public double WaveStep { get; }

    /// <summary>Part of the variance behind the fitted heads that is the sensor's noise; the rest is what the valve's law misses.</summary>
    public double NoisePart { get; private set; }

    /// <summary>The column as fitted.</summary>
    public ColumnModel Model => ModelOf(Shared);

    /// <summary>k of the open waste valve [s²/m].</summary>
    public double ValveConstant => Shared[Valve];

    /// <summary>The open waste valve as fitted.</summary>
    public ValveLaw Law => new(Shared[Valve], Shared[Floating]);

    /// <summary>The losses over those the site leads to expect.</summary>
    public double LossFactor => Shared[Losses];

    /// <summary>The column for given shared numbers.</summary>
    public ColumnModel ModelOf(double[] shared) =>
        (_prior with { BiasM = shared[Bias], SupplyHeadM = shared[Supply] }).WithLoss(shared[Losses]);

    /// <summary>Starts from where another fit of the same beats ended.</summary>
    public void StartFrom(ColumnFit other)
    {
        other.Shared.CopyTo(Shared, 0);
        other.StartVelocity.CopyTo(StartVelocity, 0);
    }

    /// <summary>Fits by Gauss–Newton steps; the starting velocities are eliminated from each step (Schur complement).</summary>
    /// <param name="steps">At most so many; fewer where the last moved each shared number by less than a thousandth of its uncertainty.</param>
    /// <returns>False when the data don't determine the numbers.</returns>
    public bool Solve(int steps)
    {
        for (int step = 0; step < steps && !_settled; step++)
        {
            if (!Step())
            {
                return false;
            }
        }

        return Shared.Concat(StartVelocity).All(double.IsFinite);
    }

    /// <summary>Fits the starting velocity of a single window with the shared numbers held.</summary>
    public double FitStart(FlowWindow window, double guess)
    {
        List<Stretch> stretches = StretchesOf(window);
        double[] velocity = new double[window.TimeS.Length];
        var sensitivities = new ColumnSensitivity[window.TimeS.Length];
        for (int step = 0; step < 2; step++)
        {
            var normal = new WindowEquations(SharedCount);
            Residuals(window, stretches, guess, velocity, sensitivities, normal);
            guess += normal.StartWeight > 0 ? Math.Clamp(normal.StartGradient / normal.StartWeight, -0.5, 0.5) : 0;
        }

        return guess;
    }

    /// <summary>How much faster the column is after a beat than before it, beyond what the sampled heads lead to [m/s].</summary>
    /// <param name="number">Number of the window.</param>
    public double LackOf(int number)
    {
        FlowWindow window = _windows[number];
        Span<double> velocity = _velocity.AsSpan(0, window.TimeS.Length);
        Span<ColumnSensitivity> sensitivities = _sensitivities.AsSpan(0, window.TimeS.Length);
        ColumnInversion.Run(window.TimeS, window.ColumnHeadM, Model, StartVelocity[number], LossFactor, velocity, sensitivities);
        int closure = Math.Min(window.At(window.Beat.ClosureS), velocity.Length - 1);
        var sides = new (double Pull, double Weight)[2];
        ValveLaw law = Law;
        foreach (Stretch stretch in _stretches[number])
        {
            (double head, double mean, double waves) = OpenPhaseLaw.Mean(window, velocity, stretch);
            if (mean <= 0)
            {
                continue;
            }

            (double expected, double perVelocity, _, _) = law.At(mean);
            double slope = perVelocity * ColumnSensitivity.Mean(sensitivities[stretch.From..stretch.To]).Start;
            double missed = LawUncertaintyM(expected) + (WaveShare * Shared[Valve] * waves);
            double weight = 1 / ((missed * missed) + (NoiseM * NoiseM / (stretch.To - stretch.From)));
            ref (double Pull, double Weight) side = ref sides[stretch.From < closure ? 0 : 1];
            side = (side.Pull + (weight * slope * (head - Shared[Bias] - expected)), side.Weight + (weight * slope * slope));
        }

        return sides[0].Weight > 0 && sides[1].Weight > 0
            ? sensitivities[closure].Start * ((sides[1].Pull / sides[1].Weight) - (sides[0].Pull / sides[0].Weight))
            : 0;
    }

    private bool Step()
    {
        Matrix<double> normal = Matrix<double>.Build.Dense(SharedCount, SharedCount);
        Vector<double> gradient = Vector<double>.Build.Dense(SharedCount);
        Misfit = 0;
        AddPriors(normal, gradient);
        double[] startGradient = new double[_windows.Count];
        (double noiseWeight, double lawWeight) = (0, 0);
        WindowEquations[] all = EachWindow();
        for (int j = 0; j < _windows.Count; j++)
        {
            WindowEquations one = all[j];
            one.Eliminate(normal, gradient);
            Misfit += one.Misfit;
            (noiseWeight, lawWeight) = (noiseWeight + one.NoiseWeight, lawWeight + one.LawWeight);
            (StartWeight[j], startGradient[j]) = (one.StartWeight, one.StartGradient);
            StartPull[j] = [.. one.Cross.Select(c => -c / one.StartWeight)];
        }

        NoisePart = noiseWeight + lawWeight > 0 ? noiseWeight / (noiseWeight + lawWeight) : 0;
        if (!(Math.Abs(normal.Determinant()) > 0))
        {
            return false;
        }

        Covariance = normal.Inverse();
        Vector<double> move = Covariance * gradient;
        double share = Math.Min(Bound(move, Valve), Bound(move, Losses));
        _settled = true;
        for (int p = 0; p < SharedCount; p++)
        {
            Shared[p] += share * move[p];
            _settled &= move[p] * move[p] <= Settled * Settled * Covariance[p, p];
        }

        Shared[Floating] = Math.Max(0, Shared[Floating]);
        for (int j = 0; j < _windows.Count; j++)
        {
            double shift = startGradient[j] / StartWeight[j];
            for (int p = 0; p < SharedCount; p++)
            {
                shift += StartPull[j][p] * share * move[p];
            }

            StartVelocity[j] += Math.Clamp(shift, -0.5, 0.5);
        }

        return true;
    }

    // Side by side; they are summed in their own order, so that the result is the same on any number of processors.
    private WindowEquations[] EachWindow()
    {
        var all = new WindowEquations[_windows.Count];
        Parallel.For(0, all.Length, j =>
        {
            FlowWindow window = _windows[j];
            double[] velocity = ArrayPool<double>.Shared.Rent(window.TimeS.Length);
            ColumnSensitivity[] sensitivities = ArrayPool<ColumnSensitivity>.Shared.Rent(window.TimeS.Length);
            all[j] = new WindowEquations(SharedCount);
            Residuals(
                window, _stretches[j], StartVelocity[j], velocity.AsSpan(0, window.TimeS.Length), sensitivities.AsSpan(0, window.TimeS.Length), all[j]);
            ArrayPool<double>.Shared.Return(velocity);
            ArrayPool<ColumnSensitivity>.Shared.Return(sensitivities);
        });
        return all;
    }

    /// <summary>Numbers that must stay positive are at most halved in one step.</summary>
    private double Bound(Vector<double> move, int number) =>
        Math.Min(1, 0.5 * Shared[number] / Math.Max(1e-9, Math.Abs(move[number])));

    private void AddPriors(Matrix<double> normal, Vector<double> gradient)
    {
        AddPrior(normal, gradient, Losses, 1, LossWeight(Shared[Losses] - 1));
        AddPrior(normal, gradient, Supply, _prior.SupplyHeadM, 1 / (SupplyUncertaintyM * SupplyUncertaintyM));
        AddPrior(normal, gradient, Floating, 0, FloatingUncertaintyPerM > 0 ? 1 / (FloatingUncertaintyPerM * FloatingUncertaintyPerM) : Held);

        // So weak that they only keep the equations solvable.
        normal[Bias, Bias] += 1e-2;
        normal[Valve, Valve] += 1e-2;
    }

    private void AddPrior(Matrix<double> normal, Vector<double> gradient, int number, double expected, double weight)
    {
        double apart = expected - Shared[number];
        normal[number, number] += weight;
        gradient[number] += apart * weight;
        Misfit += apart * apart * weight;
    }

    /// <summary>
    /// Weight of what the site says of the losses: normal around it, but above it with the long tail of Cauchy's distribution, since a
    /// blocked strainer or a gate half shut multiplies them and nothing takes them away.
    /// </summary>
    private static double LossWeight(double above)
    {
        double far = above / LossUncertainty;
        return (far > 1 ? 2 / (1 + (far * far)) : 1) / (LossUncertainty * LossUncertainty);
    }

    private void Residuals(
        FlowWindow window, List<Stretch> stretches, double start, Span<double> velocity, Span<ColumnSensitivity> sensitivities,
        WindowEquations normal)
    {
        ColumnInversion.Run(window.TimeS, window.ColumnHeadM, Model, start, LossFactor, velocity, sensitivities);
        (double anchor, ColumnSensitivity atAnchor) = window.Shut is { } shut
            ? shut.Mean(window, velocity, sensitivities)
            : ZeroFlowAnchor.Velocity(window, velocity, sensitivities);
        var means = new (double HeadM, double Velocity, double Waves)[stretches.Count];
        double[] expectedM = new double[stretches.Count];
        double[,]? rows = new double[stretches.Count + 1, SharedCount + 1];
        ValveLaw law = Law;
        for (int i = 0; i < means.Length; i++)
        {
            means[i] = OpenPhaseLaw.Mean(window, velocity, stretches[i]);
            (double head, double perVelocity, double perConstant, double perFloating) = law.At(means[i].Velocity);
            expectedM[i] = head;
            SetRow(rows, i, ColumnSensitivity.Mean(sensitivities[stretches[i].From..stretches[i].To]), perVelocity);
            rows[i, Valve] = perConstant;
            rows[i, Floating] = perFloating;
            rows[i, Bias] += 1;
        }

        SetRow(rows, means.Length, atAnchor, 1);
        double shareOfOne = 1.0 / Math.Max(1, _windows.Count);
        for (int i = 0; i < means.Length; i++)
        {
            if (means[i].Velocity <= 0)
            {
                continue;
            }

            double missed = LawUncertaintyM(expectedM[i]) + (WaveShare * Shared[Valve] * means[i].Waves);
            int count = stretches[i].To - stretches[i].From;
            double noise = NoiseM * NoiseM / count;
            double variance = noise + (missed * missed / shareOfOne);
            normal.NoiseWeight += noise / variance;
            normal.LawWeight += 1 - (noise / variance);
            double residual = means[i].HeadM - Shared[Bias] - expectedM[i];
            double far = Math.Abs(residual) / Math.Sqrt(variance);
            double weight = (far > Outlier ? Outlier / far : 1) / variance;
            normal.Add(residual, weight, rows, i);
            normal.Misfit += weight * residual * residual;
        }

        (double nothing, double uncertainty) = window.Shut is null
            ? (ZeroFlowAnchor.Expected(WaveStep), ZeroFlowAnchor.Uncertainty(anchor, WaveStep))
            : (0, ShutSpan.Uncertainty(WaveStep));
        double miss = nothing - anchor;
        double late = miss > 1.5 * uncertainty ? 1.5 * uncertainty / miss : 1;
        double anchorWeight = late * shareOfOne / (uncertainty * uncertainty);
        normal.Add(miss, anchorWeight, rows, means.Length);
        normal.Misfit += anchorWeight * miss * miss;
        if (!FollowsValve)
        {
            AddBalance(window, velocity, sensitivities, shareOfOne, normal);
        }
    }

    private static void AddBalance(
        FlowWindow window, ReadOnlySpan<double> velocity, ReadOnlySpan<ColumnSensitivity> sensitivities, double shareOfOne, WindowEquations normal)
    {
        (double gain, ColumnSensitivity sensitivity) = SteadyBeat.Gain(window, velocity, sensitivities);
        double[,] rows = new double[1, SharedCount + 1];
        SetRow(rows, 0, sensitivity, 1);
        double weight = shareOfOne / (SteadyBeat.UncertaintyMPerS * SteadyBeat.UncertaintyMPerS);
        normal.Add(-gain, weight, rows, 0);
        normal.Misfit += weight * gain * gain;
    }

    private List<Stretch> StretchesOf(FlowWindow window) => FollowsValve ? OpenPhaseLaw.Stretches(window, _prior.PeriodS, OpenedShare) : [];

    /// <summary>What moves a velocity moves what is expected in a row; the bias does it as the supply head does.</summary>
    private static void SetRow(double[,] rows, int row, in ColumnSensitivity sensitivity, double expectedPerVelocity)
    {
        rows[row, Bias] = rows[row, Supply] = expectedPerVelocity * sensitivity.Supply;
        rows[row, Losses] = expectedPerVelocity * sensitivity.Losses;
        rows[row, SharedCount] = expectedPerVelocity * sensitivity.Start;
    }

    /// <summary>Head of the open waste valve as the sensor should read it [m], for a velocity [m/s].</summary>
    public double LawHead(double velocity) => Law.At(velocity).HeadM + Shared[Bias];

    /// <summary>How far that law may be off, as a standard uncertainty [m], for a head over the valve [m].</summary>
    public static double LawUncertaintyM(double valveHeadM) => LawFloorM + (LawShare * Math.Abs(valveHeadM));
}
