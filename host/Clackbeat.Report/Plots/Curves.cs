using Clackbeat.Signal.Figures;
using MathNet.Numerics.Statistics;
using ScottPlot;

namespace Clackbeat.Report.Plots;

/// <summary>Prepares curves for drawing: breaks them at gaps and leaves out points no eye could see.</summary>
internal static class Curves
{
    private const double Bar = 1e-5;

    /// <summary>A curve in bar, cut wherever samples are missing or lie more than a few usual steps apart.</summary>
    public static List<List<Coordinates>> Pieces(TraceCurve curve, double fromS, double toS)
    {
        double usual = UsualStep(curve.TimeS);
        var pieces = new List<List<Coordinates>>();
        List<Coordinates>? piece = null;
        double last = double.NaN;
        for (int i = 0; i < curve.TimeS.Count; i++)
        {
            double t = curve.TimeS[i];
            if (t < fromS || t > toS)
            {
                continue;
            }

            if (!double.IsFinite(curve.PressurePa[i]))
            {
                piece = null;
                continue;
            }

            if (piece is null || t - last > 4 * usual)
            {
                pieces.Add(piece = []);
            }

            piece.Add(new Coordinates(t, curve.PressurePa[i] * Bar));
            last = t;
        }

        return pieces;
    }

    /// <summary>The median step of a time axis.</summary>
    public static double UsualStep(IReadOnlyList<double> times)
    {
        if (times.Count < 2)
        {
            return double.PositiveInfinity;
        }

        double[] steps = new double[times.Count - 1];
        for (int i = 0; i < steps.Length; i++)
        {
            steps[i] = times[i + 1] - times[i];
        }

        return ArrayStatistics.MedianInplace(steps);
    }

    /// <summary>
    /// Keeps the points that matter to the eye: D. H. Douglas and T. K. Peucker, "Algorithms for the reduction of the
    /// number of points required to represent a digitized line", Cartographica 10 (1973) 112–122, doi:10.3138/FM57-6770-U75U-7727.
    /// </summary>
    /// <param name="points">The curve.</param>
    /// <param name="pixel">Size of a pixel in data units.</param>
    /// <param name="tolerance">Largest distance that may be lost [pixels].</param>
    public static List<Coordinates> Simplify(IReadOnlyList<Coordinates> points, (double X, double Y) pixel, double tolerance = 0.4)
    {
        if (points.Count < 3)
        {
            return [.. points];
        }

        bool[] keep = new bool[points.Count];
        keep[0] = keep[^1] = true;
        var open = new Stack<(int First, int Last)>();
        open.Push((0, points.Count - 1));
        while (open.TryPop(out (int First, int Last) span))
        {
            (int far, double distance) = Farthest(points, span.First, span.Last, pixel);
            if (distance > tolerance)
            {
                keep[far] = true;
                open.Push((span.First, far));
                open.Push((far, span.Last));
            }
        }

        return [.. points.Where((_, i) => keep[i])];
    }

    private static (int Index, double Distance) Farthest(IReadOnlyList<Coordinates> points, int first, int last, (double X, double Y) pixel)
    {
        double dx = (points[last].X - points[first].X) / pixel.X;
        double dy = (points[last].Y - points[first].Y) / pixel.Y;
        double length = Math.Max(Math.Sqrt((dx * dx) + (dy * dy)), 1e-12);
        int far = first;
        double worst = -1;
        for (int i = first + 1; i < last; i++)
        {
            double x = (points[i].X - points[first].X) / pixel.X;
            double y = (points[i].Y - points[first].Y) / pixel.Y;
            double distance = Math.Abs((x * dy) - (y * dx)) / length;
            if (distance > worst)
            {
                (far, worst) = (i, distance);
            }
        }

        return (far, worst);
    }
}
