using Clackbeat.Slopes;

namespace Clackbeat.Season.Trend;

/// <summary>A straight line through a series.</summary>
/// <param name="Slope">Median slope, in the series' unit a day.</param>
/// <param name="Low">Lower end of its confidence interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="Intercept">Median of y − slope · x: the line's value at x = 0.</param>
public readonly record struct TrendLine(double Slope, double Low, double High, double Intercept)
{
    /// <summary>The line's value.</summary>
    /// <param name="x">Where.</param>
    public double At(double x) => Intercept + (Slope * x);

    /// <summary>Zero lies outside the interval.</summary>
    public bool IsCertain => Low > 0 || High < 0;
}

/// <summary>
/// A line by the median of the slopes of all pairs of points: see <see cref="PairSlopes"/>. Neighbouring days are alike, which makes that
/// interval too narrow: S's variance is widened by <see cref="SerialCorrelation.Inflation"/> (S. Yue and C. Wang, Water
/// Resources Management 18 (2004) 201, doi:10.1023/B:WARM.0000043140.61082.60, for a process of order one).
/// </summary>
public static class TheilSen
{
    /// <summary>Fewest points that a line may be laid through.</summary>
    public const int LeastPoints = 8;

    /// <summary>Fits days; null under <see cref="LeastPoints"/>.</summary>
    /// <param name="days">The days, oldest first.</param>
    /// <param name="confidence">Of the interval.</param>
    public static TrendLine? Fit(IReadOnlyList<DayValue> days, double confidence = 0.95)
    {
        if (days.Count < LeastPoints)
        {
            return null;
        }

        double[] x = [.. days.Select(d => d.X)];
        double[] y = [.. days.Select(d => d.Value)];
        TrendLine plain = Fit(x, y, confidence, inflation: 1);
        double inflation = SerialCorrelation.Inflation([.. days.Select(d => d.Value - plain.At(d.X))]);
        return Fit(x, y, confidence, inflation);
    }

    /// <summary>Fits any points.</summary>
    /// <param name="x">Abscissae, at least two of them different.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="confidence">Of the interval, such as 0.95.</param>
    /// <param name="inflation">Factor on the variance of Kendall's S; 1 for independent points.</param>
    public static TrendLine Fit(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double confidence, double inflation)
    {
        var slopes = PairSlopes.Of(x, y, confidence, inflation);
        var rests = new List<double>(x.Length);
        for (int i = 0; i < x.Length; i++)
        {
            rests.Add(y[i] - (slopes.Slope * x[i]));
        }

        return new TrendLine(slopes.Slope, slopes.Low, slopes.High, Robust.Median(rests));
    }
}
