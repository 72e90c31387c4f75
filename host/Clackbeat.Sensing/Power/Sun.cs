namespace Clackbeat.Sensing.Power;

/// <summary>
/// Sunshine on level ground by latitude and day, after Allen et al., FAO Irrigation and Drainage Paper 56 (1998),
/// equations 21 to 25 and 35. A panel tilted towards the winter sun gets more, one under trees far less.
/// </summary>
public static class Sun
{
    // Solar constant [MJ/(m² min)] (FAO 56, eq. 21).
    private const double SolarConstant = 0.0820;

    // Shares of the sunshine outside the air that reach the ground under a closed sky, and more with a clear one (FAO 56,
    // eq. 35, where nothing was measured on the spot).
    private const double CloudyShare = 0.25;
    private const double ClearShare = 0.50;

    private const double MegajoulesPerKilowattHour = 3.6;

    /// <summary>Sunshine outside the air on a level square metre [MJ/(m² d)].</summary>
    /// <param name="latitudeDeg">Latitude, north positive [°]; −66 to 66.</param>
    /// <param name="dayOfYear">1 for 1 January.</param>
    public static double OutsideMJ(double latitudeDeg, int dayOfYear)
    {
        double latitude = latitudeDeg * Math.PI / 180;
        double year = 2 * Math.PI * dayOfYear / 365;
        double distance = 1 + (0.033 * Math.Cos(year));
        double declination = 0.409 * Math.Sin(year - 1.39);
        double sunset = Math.Acos(Math.Clamp(-Math.Tan(latitude) * Math.Tan(declination), -1, 1));
        return 24 * 60 / Math.PI * SolarConstant * distance
            * ((sunset * Math.Sin(latitude) * Math.Sin(declination)) + (Math.Cos(latitude) * Math.Cos(declination) * Math.Sin(sunset)));
    }

    /// <summary>Hours of full sun (1 kW/m²) that a day's sunshine is worth on level ground.</summary>
    /// <param name="latitudeDeg">Latitude, north positive [°].</param>
    /// <param name="dayOfYear">1 for 1 January.</param>
    /// <param name="clearShare">Share of the daylight in which the sun shines.</param>
    public static double HoursOfFullSun(double latitudeDeg, int dayOfYear, double clearShare) =>
        (CloudyShare + (ClearShare * clearShare)) * OutsideMJ(latitudeDeg, dayOfYear) / MegajoulesPerKilowattHour;
}
