using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Signal.Flow;

/// <summary>What is fitted to a record: shared numbers, and one starting velocity for each window.</summary>
internal sealed class ColumnFit
{
    /// <summary>Shared numbers: sensor bias [m], k of the open waste valve [s²/m], loss factor, supply head [m].</summary>
    public const int SharedCount = 4;

    private const int Bias = 0;
    private const int Valve = 1;
    private const int Losses = 2;
    /// <summary>Place of the supply head among the shared numbers.</summary>
    public const int Supply = 3;

    // k is constant only so far: what the law misses, as a head and as a share of the valve's head. The same in every
    // beat, so it does not average out. The head is what the early open phase, where nearly nothing flows, was found to
    // stand from the sensor's true zero (1-8 mm on an independent model's rams, docs/flow-method.md); the share, and that of
    // the waves, gave the flows best on one half of the virtual rams of docs/flow-method.md.
    private const double LawFloorM = 0.004;
    private const double LawShare = 0.01;
    private const double WaveShare = 0.25;
    private const double LossSpread = 0.18;
    private const double Outlier = 2.5;
    private const double Settled = 1e-3;

    private readonly IReadOnlyList<FlowWindow> _windows;
    private readonly ColumnModel _prior;
    private readonly List<Stretch>[] _stretches;
    private readonly double[] _velocity;
    private readonly ColumnSlope[] _slopes;
    private bool _settled;
    private double _noiseWeight;
    private double _lawWeight;

    /// <summary>Prepares a fit.</summary>
    /// <param name="windows">The beats to fit, at least one.</param>
    /// <param name="prior">The column as the site tells it.</param>
    /// <param name="supplySpreadM">Standard uncertainty of the supply head [m].</param>
    /// <param name="noiseM">Standard deviation of the sensor's noise [m].</param>
    /// <param name="openedShare">Part of the open phase after which the waste valve is fully open.</param>
    public ColumnFit(
        IReadOnlyList<FlowWindow> windows, ColumnModel prior, double supplySpreadM, double noiseM,
        double openedShare = OpenPhaseLaw.OpenedShare)
    {
        (_windows, _prior, SupplySpreadM, NoiseM, OpenedShare) = (windows, prior, supplySpreadM, noiseM, openedShare);
        _stretches = [.. windows.Select(w => OpenPhaseLaw.Stretches(w, prior.PeriodS, openedShare))];
        int longest = windows.Max(w => w.TimeS.Length);
        (_velocity, _slopes) = (new double[longest], new ColumnSlope[longest]);
        double bias = FirstGuess.BiasM(windows);
        WaveStep = FirstGuess.WaveStep(windows, prior, bias);
        (StartVelocity, double valve) = FirstGuess.Starts(windows, prior with { BiasM = bias }, _velocity);
        Shared = [bias, valve, 1, prior.SupplyHeadM];
        Covariance = Matrix<double>.Build.Dense(SharedCount, SharedCount);
        StartPull = new double[windows.Count][];
        StartWeight = new double[windows.Count];
    }

    /// <summary>Standard uncertainty the supply head came with [m].</summary>
    public double SupplySpreadM { get; }

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
        List<Stretch> stretches = OpenPhaseLaw.Stretches(window, _prior.PeriodS, OpenedShare);
        double[] velocity = new double[window.TimeS.Length];
        var slopes = new ColumnSlope[window.TimeS.Length];
        for (int step = 0; step < 2; step++)
        {
            var normal = new WindowEquations(SharedCount);
            Residuals(window, stretches, guess, velocity, slopes, normal);
            guess += normal.StartWeight > 0 ? Math.Clamp(normal.StartGradient / normal.StartWeight, -0.5, 0.5) : 0;
        }

        return guess;
    }

    private bool Step()
    {
        var normal = Matrix<double>.Build.Dense(SharedCount, SharedCount);
        var gradient = Vector<double>.Build.Dense(SharedCount);
        AddPriors(normal, gradient);
        var startGradient = new double[_windows.Count];
        (_noiseWeight, _lawWeight) = (0, 0);
        for (int j = 0; j < _windows.Count; j++)
        {
            var one = new WindowEquations(SharedCount);
            FlowWindow window = _windows[j];
            Residuals(
                window, _stretches[j], StartVelocity[j], _velocity.AsSpan(0, window.TimeS.Length),
                _slopes.AsSpan(0, window.TimeS.Length), one);
            one.Eliminate(normal, gradient);
            (StartWeight[j], startGradient[j]) = (one.StartWeight, one.StartGradient);
            StartPull[j] = [.. one.Cross.Select(c => -c / one.StartWeight)];
        }

        NoisePart = _noiseWeight + _lawWeight > 0 ? _noiseWeight / (_noiseWeight + _lawWeight) : 0;
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

    /// <summary>Numbers that must stay positive are at most halved in one step.</summary>
    private double Bound(Vector<double> move, int number) =>
        Math.Min(1, 0.5 * Shared[number] / Math.Max(1e-9, Math.Abs(move[number])));

    private void AddPriors(Matrix<double> normal, Vector<double> gradient)
    {
        double losses = 1 / (LossSpread * LossSpread);
        double supply = 1 / (SupplySpreadM * SupplySpreadM);
        normal[Losses, Losses] += losses;
        gradient[Losses] += (1 - Shared[Losses]) * losses;
        normal[Supply, Supply] += supply;
        gradient[Supply] += (_prior.SupplyHeadM - Shared[Supply]) * supply;

        // So weak that they only keep the equations solvable.
        normal[Bias, Bias] += 1e-2;
        normal[Valve, Valve] += 1e-2;
    }

    private void Residuals(
        FlowWindow window, List<Stretch> stretches, double start, Span<double> velocity, Span<ColumnSlope> slopes, WindowEquations normal)
    {
        ColumnInversion.Run(window.TimeS, window.HeadM, Model, start, LossFactor, velocity, slopes);
        (double anchor, ColumnSlope atAnchor) = ZeroFlowAnchor.Velocity(window, velocity, slopes);
        var means = new (double HeadM, double Velocity, double Waves)[stretches.Count];
        var rows = new double[stretches.Count + 1, SharedCount + 1];
        for (int i = 0; i < means.Length; i++)
        {
            means[i] = OpenPhaseLaw.Mean(window, velocity, stretches[i]);
            double speed = Math.Abs(means[i].Velocity);
            Put(rows, i, ColumnSlope.Mean(slopes[stretches[i].From..stretches[i].To]), 2 * ValveConstant * speed);
            rows[i, Valve] = means[i].Velocity * speed;
            rows[i, Bias] += 1;
        }

        Put(rows, means.Length, atAnchor, 1);
        double shareOfOne = 1.0 / Math.Max(1, _windows.Count);
        for (int i = 0; i < means.Length; i++)
        {
            if (means[i].Velocity <= 0)
            {
                continue;
            }

            double expected = LawHead(Shared, means[i].Velocity);
            double law = LawSpread(expected - Shared[Bias]) + (WaveShare * Shared[Valve] * means[i].Waves);
            int count = stretches[i].To - stretches[i].From;
            double noise = NoiseM * NoiseM / count;
            double variance = noise + (law * law / shareOfOne);
            _noiseWeight += noise / variance;
            _lawWeight += 1 - (noise / variance);
            double residual = means[i].HeadM - expected;
            double far = Math.Abs(residual) / Math.Sqrt(variance);
            normal.Add(residual, (far > Outlier ? Outlier / far : 1) / variance, rows, i);
        }

        double spread = ZeroFlowAnchor.Spread(anchor, WaveStep);
        double miss = ZeroFlowAnchor.Expected(WaveStep) - anchor;
        double late = miss > 1.5 * spread ? 1.5 * spread / miss : 1;
        normal.Add(miss, late * shareOfOne / (spread * spread), rows, means.Length);
    }

    /// <summary>What moves a velocity moves what is expected in a row; the bias does it as the supply head does.</summary>
    private static void Put(double[,] rows, int row, in ColumnSlope slope, double expectedPerVelocity)
    {
        rows[row, Bias] = rows[row, Supply] = expectedPerVelocity * slope.Supply;
        rows[row, Losses] = expectedPerVelocity * slope.Losses;
        rows[row, SharedCount] = expectedPerVelocity * slope.Start;
    }

    /// <summary>Head of the open waste valve as the sensor should read it [m], for a velocity [m/s].</summary>
    public double LawHead(double velocity) => LawHead(Shared, velocity);

    /// <summary>How far that law may be off, as a standard uncertainty [m], for a head over the valve [m].</summary>
    public static double LawSpread(double valveHeadM) => LawFloorM + (LawShare * Math.Abs(valveHeadM));

    private static double LawHead(double[] shared, double velocity) =>
        (shared[Valve] * velocity * Math.Abs(velocity)) + shared[Bias];
}
