namespace Clackbeat.Hydraulics.Water;

/// <summary>
/// Air-free liquid water at atmospheric pressure, as far as a ram needs it. A ram's pressures (up to some 3 MPa) move
/// density by 0.15 % and sound speed by 0.45 %, which is less than a stream's temperature does in 2 °C.
/// </summary>
public sealed record WaterProperties
{
    /// <summary>What is taken when nobody measured the water [°C]: a common spring and stream temperature.</summary>
    public const double DefaultTemperatureC = 12;

    private WaterProperties()
    {
    }

    /// <summary>Temperature [°C].</summary>
    public required double TemperatureC { get; init; }

    /// <summary>Density [kg/m³].</summary>
    public required double DensityKgPerM3 { get; init; }

    /// <summary>Sound speed in unconfined water [m/s].</summary>
    public required double SoundSpeedMPerS { get; init; }

    /// <summary>Vapour pressure [Pa absolute].</summary>
    public required double VapourPressurePa { get; init; }

    /// <summary>Dynamic viscosity [Pa·s].</summary>
    public required double DynamicViscosityPaS { get; init; }

    /// <summary>Isentropic bulk modulus K = ρ c² [Pa]; the one a pressure wave meets.</summary>
    public double BulkModulusPa => DensityKgPerM3 * SoundSpeedMPerS * SoundSpeedMPerS;

    /// <summary>Kinematic viscosity [m²/s].</summary>
    public double KinematicViscosityM2PerS => DynamicViscosityPaS / DensityKgPerM3;

    /// <summary>Water of a given temperature.</summary>
    /// <param name="temperatureC">Temperature [°C], 0 to 40.</param>
    public static WaterProperties At(double temperatureC)
    {
        if (!(temperatureC is >= 0 and <= 40))
        {
            throw new ArgumentOutOfRangeException(
                nameof(temperatureC), temperatureC, "Water properties are given from 0 °C to 40 °C.");
        }

        return new WaterProperties
        {
            TemperatureC = temperatureC,
            DensityKgPerM3 = WaterFormulas.DensityKgPerM3(temperatureC),
            SoundSpeedMPerS = WaterFormulas.SoundSpeedMPerS(temperatureC),
            VapourPressurePa = WaterFormulas.VapourPressurePa(temperatureC + 273.15),
            DynamicViscosityPaS = WaterFormulas.DynamicViscosityPaS(temperatureC + 273.15),
        };
    }
}
