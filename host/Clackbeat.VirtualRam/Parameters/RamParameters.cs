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

    /// <summary>The drive pipe, or the section of it at the ram.</summary>
    public required PipeParameters DrivePipe { get; init; }

    /// <summary>Sections before that one, from the intake on; empty for a pipe of one kind.</summary>
    public IReadOnlyList<PipeParameters> Upstream { get; init; } = [];

    /// <summary>All sections, from the intake to the ram.</summary>
    public IReadOnlyList<PipeParameters> Sections => [.. Upstream, DrivePipe];

    /// <summary>
    /// Wave speed in the section at the ram while its water stands at a head, free gas counted (A. B. Wood's mixture rule) [m/s].
    /// </summary>
    /// <param name="headM">Head [m].</param>
    public double WaveSpeedAt(double headM)
    {
        double weight = Water.DensityKgPerM3 * Hydraulics.Water.Constants.GravityMPerS2;
        double pressure = Water.AtmospherePa - Water.VapourPressurePa + weight * headM;
        double gas = DrivePipe.GasShare * Water.AtmospherePa / pressure;
        double speed = DrivePipe.WaveSpeedMPerS;
        return 1 / Math.Sqrt(1 / (speed * speed) + Water.DensityKgPerM3 * gas / pressure);
    }

    /// <summary>One pipe of the bore at the ram that is as inert as all sections: for sizing, not for waves.</summary>
    public PipeParameters Column => ColumnOf(Sections);

    /// <summary>The same of any sections, from the intake to the ram.</summary>
    /// <param name="sections">One or more.</param>
    public static PipeParameters ColumnOf(IReadOnlyList<PipeParameters> sections)
    {
        ArgumentNullException.ThrowIfNull(sections);
        PipeParameters last = sections[^1];
        return last with { LengthM = last.AreaM2 * sections.Sum(s => s.LengthM / s.AreaM2) };
    }

    /// <summary>
    /// Unsteady friction over that of Vardy and Brown (see <see cref="Hydraulics.Transients.UnsteadyFriction"/>); 1 as published, 0 for none.
    /// </summary>
    public double UnsteadyFriction { get; init; }

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

    /// <summary>A stand pipe or small tank whose level the beat moves; null for a level that stands.</summary>
    public StandPipeParameters? StandPipe { get; init; }
}

/// <summary>An open stand pipe, filled from the supply's level by a feed pipe.</summary>
public sealed record StandPipeParameters
{
    /// <summary>Surface of the stand pipe [m²].</summary>
    public required double AreaM2 { get; init; }

    /// <summary>Length of the feed [m].</summary>
    public required double FeedLengthM { get; init; }

    /// <summary>Area of the feed [m²].</summary>
    public required double FeedAreaM2 { get; init; }

    /// <summary>Loss of the feed on its velocity head: friction f L/D, entrance and exit together.</summary>
    public required double FeedLoss { get; init; }

    /// <summary>Mean flow that another ram draws here [m³/s].</summary>
    public double NeighbourM3PerS { get; init; }

    /// <summary>Time of that ram's beat [s]; its flow grows evenly through each beat.</summary>
    public double NeighbourPeriodS { get; init; } = 1;
}

/// <summary>The body.</summary>
public sealed record BodyParameters
{
    /// <summary>How much water the body takes in a metre of head, walls and water together [m³/m].</summary>
    public required double ComplianceM2 { get; init; }

    /// <summary>Gas in the body, as a volume at atmospheric pressure [m³]; some bubbles are always there.</summary>
    public required double GasM3 { get; init; }

    /// <summary>Loss coefficient of a gate valve beside the ram, on the velocity head of the pipe there; 0 when it stands open.</summary>
    public double GateLoss { get; init; }

    /// <summary>Effective area of the snifter, with its discharge coefficient [m²]; 0 without one.</summary>
    public double SnifterAreaM2 { get; init; }

    /// <summary>Water over the outlet of the waste valve [m]; 0 where it runs out freely at the datum.</summary>
    public double TailwaterM { get; init; }

    /// <summary>Volume of the body [m³]: as much delivered water carries the snifter's air on to the vessel.</summary>
    public double VolumeM3 { get; init; } = 5e-4;
}

/// <summary>The air vessel.</summary>
public sealed record VesselParameters
{
    /// <summary>Gas in the vessel when it stands at <see cref="MainParameters.OutletHeadM"/> [m³].</summary>
    public required double GasM3 { get; init; }

    /// <summary>Polytropic exponent; 1.2 is the common middle between isothermal and adiabatic for air vessels.</summary>
    public double PolytropicExponent { get; init; } = 1.2;
}

/// <summary>The delivery main: a rigid column of water that rises evenly from the vessel to the outlet, which stands in the open air.</summary>
public sealed record MainParameters
{
    /// <summary>Where a main leaks, if nothing else is said: share of its length from the vessel.</summary>
    public const double UsualLeakAt = 0.4;

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

    /// <summary>Effective area of a hole in the main, with its discharge coefficient [m²]; 0 for a tight main.</summary>
    public double LeakAreaM2 { get; init; }

    /// <summary>Where that hole is: share of the length from the vessel.</summary>
    public double LeakAt { get; init; } = UsualLeakAt;

    /// <summary>Flow in a tight main when the ram starts [m³/s]; 0 for a main at rest.</summary>
    public double RunningM3PerS { get; init; }

    /// <summary>Mean flow that another ram delivers beside the vessel [m³/s].</summary>
    public double NeighbourM3PerS { get; init; }

    /// <summary>Time of that ram's beat [s]; it delivers through the first fifth of each.</summary>
    public double NeighbourPeriodS { get; init; } = 1;
}
