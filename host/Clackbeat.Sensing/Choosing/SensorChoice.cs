using Clackbeat.Hydraulics.Water;

namespace Clackbeat.Sensing.Choosing;

/// <summary>
/// Which range of pressure sensor a ram needs. A sensor that is too weak bursts; a ram loads it with its peak at every
/// beat, so the peak is a working pressure and not an overload.
/// </summary>
public static class SensorChoice
{
    /// <summary>
    /// Times the delivery pressure that the range must reach where the peak's ceiling isn't known. Measured rams peak at
    /// 2.9 to 4.9 times their delivery pressure (records of home-made rams, AguaClara, Cornell University, 2021).
    /// </summary>
    public const double TimesDelivery = 5;

    /// <summary>Range from which a sealed gauge does as well as a vented one [Pa]: the seal's error is then under 1 % of it.</summary>
    public const double VentedBelowPa = 25e5;

    private const double BarPa = 1e5;
    private const double MinutesPerYear = 365.25 * 24 * 60;

    // Upper ends of the gauge ranges of EN 837-1:1996, table 1 [bar], which transmitters follow.
    private static readonly double[] RangesBar =
        [0.6, 1, 1.6, 2.5, 4, 6, 10, 16, 25, 40, 60, 100, 160, 250, 400, 600, 1000, 1600];

    /// <summary>Upper end of the sensor's range to buy [Pa gauge]: the next usual one at or above a ceiling.</summary>
    /// <param name="ceilingPa">Highest pressure that a beat can make [Pa gauge].</param>
    /// <returns>The range's upper end; null when no usual range reaches the ceiling.</returns>
    public static double? RangePa(double ceilingPa)
    {
        foreach (double bar in RangesBar)
        {
            if (bar * BarPa >= ceilingPa)
            {
                return bar * BarPa;
            }
        }

        return null;
    }

    /// <summary>The same from the delivery pressure alone, for a reader who has no ceiling yet.</summary>
    /// <param name="deliveryPa">Static delivery pressure [Pa gauge].</param>
    public static double? RangeFromDeliveryPa(double deliveryPa) => RangePa(TimesDelivery * deliveryPa);

    /// <summary>Pressure cycles in a year of beating without a pause.</summary>
    public static double CyclesPerYear(double beatsPerMin) => beatsPerMin * MinutesPerYear;

    /// <summary>
    /// What a gauge sealed at sea level reads too high at an altitude [Pa]: the difference of the mean air pressures
    /// (ISO 2533:1975). The weather adds up to some 3 kPa either way.
    /// </summary>
    public static double SealedGaugeErrorPa(double altitudeM) =>
        Constants.StandardAtmospherePa - Constants.AtmosphereAtAltitudePa(altitudeM);
}
