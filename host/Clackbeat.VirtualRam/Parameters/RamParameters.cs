namespace Clackbeat.VirtualRam.Parameters;

/// <summary>
/// Everything that makes one ram behave as it does. SI units; heads are metres of water above the datum, the waste
/// valve's outlet, at which the body and the drowned outlet of the waste valve are taken to lie.
/// </summary>
public sealed record RamParameters
{
    /// <summary>The water.</summary>
    public required WaterParameters Water { get; init; }

    /// <summary>The intake.</summary>
    public required SupplyParameters Supply { get; init; }

    /// <summary>The drive pipe.</summary>
    public required PipeParameters DrivePipe { get; init; }

    /// <summary>The body between pipe and valves.</summary>
    public required BodyParameters Body { get; init; }

    /// <summary>The waste valve; the pressure in the body shuts it, weight and spring open it.</summary>
    public required ValveParameters WasteValve { get; init; }

    /// <summary>The delivery valve; the pressure in the body opens it, weight and spring shut it.</summary>
    public required ValveParameters DeliveryValve { get; init; }

    /// <summary>The air vessel.</summary>
    public required VesselParameters AirVessel { get; init; }

    /// <summary>The main from vessel to outlet.</summary>
    public required MainParameters DeliveryMain { get; init; }

    /// <summary>
    /// Relative scatter (one standard deviation) of the waste valve's opening force from beat to beat: turbulence, a plug
    /// that turns on its stem. 0 repeats every beat alike.
    /// </summary>
    public double BeatScatter { get; init; }

    /// <summary>Longest time step of the solver [s]; the pipe is cut into equal reaches of a·Δt.</summary>
    public double LongestStepS { get; init; } = 1e-4;

    /// <summary>Most reaches the pipe is cut into; bounds the work on long soft pipes, where waves are slow anyway.</summary>
    public int MostReaches { get; init; } = 800;
}

/// <summary>The water that flows.</summary>
public sealed record WaterParameters
{
    /// <summary>Density [kg/m³].</summary>
    public required double DensityKgPerM3 { get; init; }

    /// <summary>Kinematic viscosity [m²/s]; 0 makes the pipe frictionless.</summary>
    public required double KinematicViscosityM2PerS { get; init; }

    /// <summary>Vapour pressure [Pa absolute].</summary>
    public required double VapourPressurePa { get; init; }

    /// <summary>Pressure of the air [Pa absolute].</summary>
    public required double AtmospherePa { get; init; }
}

/// <summary>The intake.</summary>
public sealed record SupplyParameters
{
    /// <summary>Water level above the datum [m].</summary>
    public required double HeadM { get; init; }

    /// <summary>Loss coefficient of strainer, entrance and bends, without the velocity head; −1 makes the intake lossless.</summary>
    public required double LossCoefficient { get; init; }

    /// <summary>Depth of the pipe's mouth under the water level [m]; sets where along the pipe vapour forms.</summary>
    public double SubmergenceM { get; init; } = 0.3;
}

/// <summary>The drive pipe, falling evenly from the intake to the body.</summary>
public sealed record PipeParameters
{
    /// <summary>Length [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Bore [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Absolute roughness [m].</summary>
    public required double RoughnessM { get; init; }

    /// <summary>Wave speed over times long against <see cref="SlowGiveTimeS"/> [m/s].</summary>
    public required double WaveSpeedMPerS { get; init; }

    /// <summary>
    /// Compliance that follows the pressure with a delay, as a share of the prompt compliance: creep of plastic walls, rubber
    /// in joints, the few bubbles that real water carries. This calms sharp waves, which wall friction alone hardly does.
    /// </summary>
    public double SlowGive { get; init; }

    /// <summary>Time constant of that delay [s].</summary>
    public double SlowGiveTimeS { get; init; } = 1e-3;

    /// <summary>Cross-section [m²].</summary>
    public double AreaM2 => Math.PI / 4 * BoreM * BoreM;
}

/// <summary>The body.</summary>
public sealed record BodyParameters
{
    /// <summary>How much water the body takes in a metre of head, walls and water together [m³/m].</summary>
    public required double ComplianceM2 { get; init; }

    /// <summary>Gas in the body, as a volume at atmospheric pressure [m³]; some bubbles are always there.</summary>
    public required double GasM3 { get; init; }
}

/// <summary>The air vessel.</summary>
public sealed record VesselParameters
{
    /// <summary>Gas in the vessel when it stands at <see cref="MainParameters.OutletHeadM"/> [m³].</summary>
    public required double GasM3 { get; init; }

    /// <summary>Polytropic exponent; 1.2 is the common middle between isothermal and adiabatic for air vessels.</summary>
    public double PolytropicExponent { get; init; } = 1.2;
}

/// <summary>The delivery main: a rigid column of water.</summary>
public sealed record MainParameters
{
    /// <summary>Static head of the outlet [m].</summary>
    public required double OutletHeadM { get; init; }

    /// <summary>Length [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Bore [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Absolute roughness [m].</summary>
    public required double RoughnessM { get; init; }

    /// <summary>Loss coefficient of fittings and a throttled valve, with the velocity head.</summary>
    public required double LossCoefficient { get; init; }
}
