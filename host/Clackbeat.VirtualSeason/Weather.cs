using MathNet.Numerics.Distributions;

namespace Clackbeat.VirtualSeason;

/// <summary>Supply level and water temperature by the day: high water in spring, drought into autumn, showers in between.</summary>
internal sealed class Weather
{
    private readonly double[] _showers;

    public Weather(int days, Random random)
    {
        _showers = new double[days + 1];
        for (int day = 1; day <= days; day++)
        {
            // A shower now and then, which runs off within days.
            double rain = random.NextDouble() < 0.12 ? 0.05 * random.NextDouble() : 0;
            _showers[day] = Math.Min(0.12, (0.8 * _showers[day - 1]) + rain + Normal.Sample(random, 0, 0.006));
        }
    }

    /// <summary>Supply head as a share of the site's.</summary>
    public double HeadShare(int day, DateOnly date)
    {
        double yearly = Math.Cos(2 * Math.PI * (date.DayOfYear - 90) / 365.25);
        return Math.Clamp(0.88 + (0.11 * yearly) + _showers[day], RamSurface.HeadRange.Low, RamSurface.HeadRange.High);
    }

    /// <summary>Water temperature [°C].</summary>
    public static double TemperatureC(DateOnly date) => 10 - (8 * Math.Cos(2 * Math.PI * (date.DayOfYear - 20) / 365.25));
}
