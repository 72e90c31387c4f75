namespace Clackbeat.Season.Trend;

/// <summary>Squared residuals of a stretch about its level or line, each in constant time from running sums.</summary>
internal sealed class StretchCost
{
    private readonly StretchModel _model;
    private readonly double _x0;
    private readonly double _y0;
    private readonly double[] _x;
    private readonly double[] _xx;
    private readonly double[] _y;
    private readonly double[] _xy;
    private readonly double[] _yy;

    public StretchCost(double[] x, double[] y, StretchModel model)
    {
        _model = model;

        // Sums of squares lose digits on values far from zero, such as day numbers.
        (_x0, _y0) = (x.Average(), y.Average());
        _x = Running(x.Length, i => x[i] - _x0);
        _xx = Running(x.Length, i => (x[i] - _x0) * (x[i] - _x0));
        _y = Running(x.Length, i => y[i] - _y0);
        _xy = Running(x.Length, i => (x[i] - _x0) * (y[i] - _y0));
        _yy = Running(x.Length, i => (y[i] - _y0) * (y[i] - _y0));
    }

    /// <summary>Cost of a stretch, first index included, last excluded.</summary>
    public double Of(int from, int to)
    {
        (double slope, double sxy, double syy) = Moments(from, to);
        return Math.Max(0, syy - (slope * sxy));
    }

    /// <summary>The stretch's level or line at an abscissa.</summary>
    public double ValueAt(int from, int to, double x)
    {
        double n = to - from;
        double mean = (_y[to] - _y[from]) / n;
        double middle = (_x[to] - _x[from]) / n;
        return _y0 + mean + (Moments(from, to).Slope * (x - _x0 - middle));
    }

    private (double Slope, double Sxy, double Syy) Moments(int from, int to)
    {
        double n = to - from;
        double sumX = _x[to] - _x[from];
        double sumY = _y[to] - _y[from];
        double sxx = _xx[to] - _xx[from] - (sumX * sumX / n);
        double sxy = _xy[to] - _xy[from] - (sumX * sumY / n);
        double syy = _yy[to] - _yy[from] - (sumY * sumY / n);
        return (_model == StretchModel.Line && sxx > 0 ? sxy / sxx : 0, sxy, syy);
    }

    private static double[] Running(int count, Func<int, double> value)
    {
        double[] sums = new double[count + 1];
        for (int i = 0; i < count; i++)
        {
            sums[i + 1] = sums[i] + value(i);
        }

        return sums;
    }
}
