using System.Buffers;

namespace Clackbeat.Signal.Flow;

/// <summary>One wave speed tried on a record.</summary>
/// <param name="MPerS">Wave speed [m/s].</param>
/// <param name="Misfit">Mean square of what the open valve's law leaves over [m²].</param>
internal readonly record struct WaveTrial(double MPerS, double Misfit);

/// <summary>
/// How well each wave speed explains the open phases. The waves that closure, steps and recoil leave in the pipe come back
/// every 2L/a; with the right period the characteristics predict the velocity of each of them, and the head of the open
/// valve follows it sample by sample as h = k (v + d)² + b. With a wrong period the predicted waves arrive out of step and
/// the law leaves more over. Fitting k, d and b anew for each beat makes the misfit blind to the sensor's zero, to the
/// velocity the beat starts with and to the valve: only the timing of the waves is left to tell.
/// </summary>
internal sealed class WaveScan
{
    // Earlier than where the law is trusted with the sensor's zero: the first waves are the strongest, and here the law
    // only needs to be smooth.
    private const double EarlyShare = 0.08;

    private readonly FlowWindow[] _windows;
    private readonly ColumnModel _site;
    private readonly double[] _starts;
    private readonly int _longest;

    /// <summary>Prepares a scan.</summary>
    /// <param name="windows">Beats.</param>
    /// <param name="site">The column as the site tells it, the bias roughly known.</param>
    public WaveScan(FlowWindow[] windows, in ColumnModel site)
    {
        (_windows, _site) = (windows, site);
        _longest = windows.Max(w => w.TimeS.Length);
        _starts = new double[windows.Length];
        for (int j = 0; j < windows.Length; j++)
        {
            double[] v = new double[windows[j].TimeS.Length];
            ColumnInversion.Run(windows[j].TimeS, windows[j].ColumnHeadM, site, 0, v);
            _starts[j] = -ZeroFlowAnchor.AtRest(windows[j], v);
        }
    }

    /// <summary>Tries wave speeds side by side; each result is the same as alone.</summary>
    public WaveTrial[] Try(IReadOnlyList<double> waveSpeedsMPerS)
    {
        var trials = new WaveTrial[waveSpeedsMPerS.Count];
        Parallel.For(0, trials.Length, i => trials[i] = Try(waveSpeedsMPerS[i]));
        return trials;
    }

    /// <summary>Tries a wave speed.</summary>
    public WaveTrial Try(double waveSpeedMPerS)
    {
        double[] velocity = ArrayPool<double>.Shared.Rent(_longest);
        WaveTrial trial = Try(waveSpeedMPerS, velocity);
        ArrayPool<double>.Shared.Return(velocity);
        return trial;
    }

    private WaveTrial Try(double waveSpeedMPerS, double[] velocity)
    {
        ColumnModel model = _site with { WaveSpeedMPerS = waveSpeedMPerS };
        (double sum, long count) = (0, 0);
        for (int j = 0; j < _windows.Length; j++)
        {
            FlowWindow window = _windows[j];
            (double fromS, double toS) = OpenPhaseLaw.FullyOpen(window.Beat, EarlyShare);
            (int from, int to) = (window.At(fromS), window.At(toS));
            if (to - from < 16)
            {
                continue;
            }

            // A velocity depends on what came before alone, so nothing behind the open phase is needed; a grid is cut by the whole window.
            int until = model.Shape is null ? to : window.TimeS.Length;
            Span<double> v = velocity.AsSpan(0, until);
            ColumnInversion.Run(window.TimeS.AsSpan(0, until), window.ColumnHeadM.AsSpan(0, until), model, _starts[j], v);
            sum += ResidualSum(v[from..to], window.HeadM.AsSpan(from, to - from));
            count += to - from - 3;
        }

        return new WaveTrial(waveSpeedMPerS, count > 0 ? sum / count : double.NaN);
    }

    /// <summary>Sum of squares that h = c₀ + c₁ v + c₂ v² leaves over.</summary>
    private static double ResidualSum(ReadOnlySpan<double> v, ReadOnlySpan<double> h)
    {
        // Centred, so that the normal equations stay well conditioned.
        double mean = 0;
        double level = 0;
        for (int i = 0; i < v.Length; i++)
        {
            mean += v[i];
            level += h[i];
        }

        mean /= v.Length;
        level /= v.Length;
        double s2 = 0, s3 = 0, s4 = 0, y0 = 0, y1 = 0, y2 = 0;
        for (int i = 0; i < v.Length; i++)
        {
            double x = v[i] - mean;
            double y = h[i] - level;
            double xx = x * x;
            s2 += xx;
            s3 += xx * x;
            s4 += xx * xx;
            y0 += y * y;
            y1 += y * x;
            y2 += y * xx;
        }

        // With both sides centred the constant drops out once x² is centred too.
        double n = v.Length;
        double a11 = s2, a12 = s3, a22 = s4 - (s2 * s2 / n);
        double det = (a11 * a22) - (a12 * a12);
        if (!(det > 1e-18))
        {
            return y0;
        }

        double c1 = ((y1 * a22) - (y2 * a12)) / det;
        double c2 = ((y2 * a11) - (y1 * a12)) / det;
        return Math.Max(0, y0 - (c1 * y1) - (c2 * y2));
    }
}
