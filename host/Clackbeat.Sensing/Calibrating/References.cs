using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>Known pressures, and how well they are known. Uncertainties are standard ones (k = 1).</summary>
public static class References
{
    // Gravity from equator to pole and up a mountain is 9.765 to 9.832 m/s² (Somigliana's formula, WGS 84): a rectangle of
    // ± 0.35 % about the standard value holds it all.
    private const double GravityLimitShare = 0.0035;

    // A thermometer in the hose's end, not along it.
    private const double TemperatureLimitC = 3;

    /// <summary>The open air: gauge pressure 0, but for a little water that stands in the port.</summary>
    /// <param name="waterInPortM">How much water may stand over the sensor's face [m].</param>
    public static (double PressurePa, double OwnPa, double CommonPa) Air(double waterInPortM = 0.005) =>
        (0, 1000 * Constants.GravityMPerS2 * waterInPortM / Math.Sqrt(3), 0);

    /// <summary>A standing column of water, p = ρ(T) g h.</summary>
    /// <param name="heightM">Water level above the sensor's face [m].</param>
    /// <param name="heightUncertaintyM">Expanded uncertainty (k = 2) of that height [m].</param>
    /// <param name="temperatureC">Water temperature [°C], 0 to 40.</param>
    /// <param name="gravityMPerS2">Local gravity [m/s²]; null takes the standard one and widens.</param>
    public static (double PressurePa, double OwnPa, double CommonPa) Column(
        double heightM, double heightUncertaintyM, double temperatureC, double? gravityMPerS2 = null)
    {
        double density = WaterProperties.At(temperatureC).DensityKgPerM3;
        double gravity = gravityMPerS2 ?? Constants.GravityMPerS2;
        double pressure = density * gravity * heightM;
        double nearby = WaterProperties.At(temperatureC < 20 ? temperatureC + TemperatureLimitC : temperatureC - TemperatureLimitC).DensityKgPerM3;
        double densityShare = Math.Abs(nearby - density) / density / Math.Sqrt(3);
        double gravityShare = gravityMPerS2 is null ? GravityLimitShare / Math.Sqrt(3) : 0;
        return (
            pressure,
            density * gravity * heightUncertaintyM / 2,
            Math.Abs(pressure) * Math.Sqrt((densityShare * densityShare) + (gravityShare * gravityShare)));
    }

    /// <summary>
    /// A gauge's reading. Its limit of error holds anywhere on the dial (EN 837-1: class × span / 100). The larger part of
    /// it, a bent needle or a tired tube, is the same for all readings; reading the dial is each one's own.
    /// </summary>
    /// <param name="readingPa">What it shows [Pa gauge].</param>
    /// <param name="limitPa">Its limit of error [Pa].</param>
    public static (double PressurePa, double OwnPa, double CommonPa) Gauge(double readingPa, double limitPa)
    {
        double each = limitPa / Math.Sqrt(3) / Math.Sqrt(2);
        return (readingPa, each, each);
    }

    /// <summary>
    /// Local gravity by latitude and altitude [m/s²], Somigliana's closed form on WGS 84 (NIMA TR8350.2, 3rd ed., eq. 4-1)
    /// with the free-air gradient 3.086e−6 /s²; within 0.001 m/s² almost everywhere.
    /// </summary>
    /// <param name="latitudeDeg">Latitude [°], −90 to 90.</param>
    /// <param name="altitudeM">Altitude above the sea [m].</param>
    public static double GravityAt(double latitudeDeg, double altitudeM)
    {
        double sine = Math.Sin(latitudeDeg * Math.PI / 180);
        double square = sine * sine;
        return (9.7803253359 * (1 + (0.00193185265241 * square)) / Math.Sqrt(1 - (0.00669437999014 * square)))
            - (3.086e-6 * altitudeM);
    }

    /// <summary>The pressure that a sensor's data sheet gives for an output that a meter reads.</summary>
    /// <param name="path">The chain.</param>
    /// <param name="output">Voltage or current fed in place of the sensor [V or A].</param>
    /// <param name="supplyV">The supply by the same meter [V]; null where the output doesn't follow it.</param>
    /// <param name="meterShare">Limit of error of the meter, as a share of its reading.</param>
    public static (double PressurePa, double OwnPa, double CommonPa) Electric(
        SignalPath path, double output, double? supplyV, double meterShare)
    {
        double scale = path.Output.FollowsSupply && supplyV is double supply ? path.SupplyV / supply : 1;
        double width = path.Output.High - path.Output.Low;
        double pressure = path.RangeLowPa + (((output * scale) - path.Output.Low) / width * path.SpanPa);
        double each = meterShare * output * scale / width * path.SpanPa / Math.Sqrt(3) / Math.Sqrt(2);
        return (pressure, each, each);
    }
}
