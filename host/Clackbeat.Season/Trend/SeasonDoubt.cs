using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>
/// What the seasons may lay upon a slope. Nobody measures the water's temperature, so its effect stays in every figure; over half
/// a year it looks like wear. A slope's interval is widened by as much as a yearly wave can do to it.
/// </summary>
/// <remarks>
/// Size of the wave: friction goes with the fourth root of viscosity (H. Blasius, 1913), and viscosity falls from 1.67 to 1.00 mm²/s
/// between 2 and 20 °C (IAPWS R12-08), so friction swings by 6.5 % about its mean. A ram that loses a tenth of its energy to friction
/// and delivers 65 % of it sees its efficiency swing by 1 %. Other figures swing less.
/// </remarks>
internal static class SeasonDoubt
{
    private const double Amplitude = 0.01;
    private const double YearDays = 365.25;

    /// <summary>Whether a figure has such a wave: not what is set by the stream or is no measure of the ram's work.</summary>
    public static bool Concerns(SeasonFigure figure) =>
        figure is not (SeasonFigure.SupplyHead or SeasonFigure.Irregularity or SeasonFigure.Battery);

    /// <summary>The trend with its interval widened.</summary>
    /// <param name="trend">The trend.</param>
    /// <param name="days">The days it rests on.</param>
    public static TrendLine Widen(TrendLine trend, IReadOnlyList<DayValue> days)
    {
        double[] x = [.. days.Select(d => d.X)];
        double level = Math.Abs(trend.At(x.Average()));
        double half = Amplitude * level * Math.Sqrt(Math.Pow(SlopeOf(x, Math.Cos), 2) + Math.Pow(SlopeOf(x, Math.Sin), 2));
        return trend with { Low = trend.Low - half, High = trend.High + half };
    }

    // Slope by least squares of a yearly wave of amplitude 1; of cosine and sine together the worst of all phases.
    private static double SlopeOf(double[] x, Func<double, double> wave)
    {
        double mean = x.Average();
        double squares = x.Sum(v => (v - mean) * (v - mean));
        return squares > 0 ? x.Sum(v => (v - mean) * wave(2 * Math.PI * v / YearDays)) / squares : 0;
    }
}
