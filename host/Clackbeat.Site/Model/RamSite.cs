using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Model;

/// <summary>
/// One ram and what surrounds it, as the site file describes it. SI units; pressures are gauge; heads are metres of
/// water above the datum, which is the waste valve's outlet. Null means "left out of the file".
/// </summary>
public sealed record RamSite
{
    /// <summary>The keeper's name for the ram.</summary>
    public required string Name { get; init; }

    /// <summary>The water above the ram.</summary>
    public required Supply Supply { get; init; }

    /// <summary>The pipe that carries the hammer.</summary>
    public required DrivePipe DrivePipe { get; init; }

    /// <summary>Where the water goes.</summary>
    public required Delivery Delivery { get; init; }

    /// <summary>The pressure sensor on the body.</summary>
    public required Sensor Sensor { get; init; }

    /// <summary>The air vessel over the delivery valve.</summary>
    public AirVessel AirVessel { get; init; } = new();

    /// <summary>The waste valve as it is set up.</summary>
    public WasteValve WasteValve { get; init; } = new();

    /// <summary>The logger between sensor and recording.</summary>
    public LoggerSetup Logger { get; init; } = new();

    /// <summary>What a lone logger lives on.</summary>
    public BatterySetup Battery { get; init; } = new();

    /// <summary>Fittings of the drive side that bear the peak together with the pipe.</summary>
    public IReadOnlyList<Fitting> Fittings { get; init; } = [];

    /// <summary>Timed bucket tests, which calibrate the flows.</summary>
    public IReadOnlyList<BucketTest> BucketTests { get; init; } = [];

    /// <summary>What the keeper wrote down for the next one.</summary>
    public string? Note { get; init; }

    /// <summary>Units the keeper wants to read.</summary>
    public Units Units { get; init; } = Units.Metric;
}

/// <summary>The intake.</summary>
public sealed record Supply
{
    /// <summary>Water level at the intake above the datum [m].</summary>
    public required double HeadM { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of that level [m].</summary>
    public double? HeadUncertaintyM { get; init; }

    /// <summary>Water temperature [°C].</summary>
    public double? WaterTemperatureC { get; init; }
}

/// <summary>The drive pipe.</summary>
public sealed record DrivePipe
{
    /// <summary>Material.</summary>
    public required PipeMaterial Material { get; init; }

    /// <summary>Length from intake to body [m].</summary>
    public required double LengthM { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of the length [m].</summary>
    public double? LengthUncertaintyM { get; init; }

    /// <summary>Inside diameter [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Nominal size as the pipe's maker prints it, such as "2 in" or "DN 50".</summary>
    public string? NominalSize { get; init; }

    /// <summary>Wall or pressure class as printed, such as "Schedule 40", "SDR 11" or "PN 16".</summary>
    public string? PressureClass { get; init; }

    /// <summary>Wall thickness [m].</summary>
    public double? WallM { get; init; }

    /// <summary>Outside diameter [m], where the file gives it.</summary>
    public double? OutsideDiameterM { get; init; }

    /// <summary>Pressure rating printed on the pipe [Pa gauge].</summary>
    public double? PressureRatingPa { get; init; }

    /// <summary>Wave speed as given in the file [m/s].</summary>
    public double? WaveSpeedMPerS { get; init; }

    /// <summary>How the pipe is held lengthwise.</summary>
    public PipeRestraint? Restraint { get; init; }

    /// <summary>The pipe's ends are threaded, which takes wall away; null when nobody said.</summary>
    public bool? Threaded { get; init; }

    /// <summary>Highest temperature the pipe's wall reaches, which lowers the rating of plastics [°C].</summary>
    public double? HighestTemperatureC { get; init; }

    /// <summary>Absolute wall roughness [m].</summary>
    public double? RoughnessM { get; init; }

    /// <summary>Loss coefficient of entrance, strainer and bends, without the velocity head.</summary>
    public double? MinorLossCoefficient { get; init; }
}

/// <summary>The delivery side.</summary>
public sealed record Delivery
{
    /// <summary>Delivery outlet above the datum [m].</summary>
    public required double HeadM { get; init; }

    /// <summary>Length of the delivery main [m].</summary>
    public double? PipeLengthM { get; init; }

    /// <summary>Bore of the delivery main [m].</summary>
    public double? PipeBoreM { get; init; }
}

/// <summary>The pressure sensor.</summary>
public sealed record Sensor
{
    /// <summary>Lowest pressure the sensor reads [Pa gauge].</summary>
    public required double RangeLowPa { get; init; }

    /// <summary>Highest pressure the sensor reads [Pa gauge].</summary>
    public required double RangeHighPa { get; init; }

    /// <summary>Electric output at both ends of that range; null for 0.5 to 4.5 V.</summary>
    public SensorOutput? Output { get; init; }

    /// <summary>Supply of the sensor [V].</summary>
    public double? SupplyV { get; init; }

    /// <summary>Height of the sensor above the datum [m]; 0 where the file leaves it out.</summary>
    public double HeightM { get; init; }

    /// <summary>Limit of error by the maker's sheet, as a share of the span.</summary>
    public double? AccuracyShareOfSpan { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of the gain after calibration, as a share of the reading.</summary>
    public double? GainUncertainty { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of the zero after calibration [Pa].</summary>
    public double? OffsetUncertaintyPa { get; init; }

    /// <summary>Response time, 10 to 90 % of a step [s].</summary>
    public double? ResponseTimeS { get; init; }

    /// <summary>Length of the line between the body and the sensor's face [m].</summary>
    public double? TapLineLengthM { get; init; }

    /// <summary>Bore of that line [m].</summary>
    public double? TapLineBoreM { get; init; }
}

/// <summary>The air vessel.</summary>
public sealed record AirVessel
{
    /// <summary>Inside volume [m³].</summary>
    public double? VolumeM3 { get; init; }
}

/// <summary>The waste valve.</summary>
public sealed record WasteValve
{
    /// <summary>Travel of the plug [m].</summary>
    public double? StrokeM { get; init; }

    /// <summary>Mass of the plug and its weights [kg].</summary>
    public double? MassKg { get; init; }

    /// <summary>Diameter of the seat's opening [m].</summary>
    public double? SeatDiameterM { get; init; }

    /// <summary>Force of the spring on the open valve [N]; null for a valve that works by its weight.</summary>
    public double? SpringForceN { get; init; }

    /// <summary>Stiffness of that spring [N/m].</summary>
    public double? SpringRateNPerM { get; init; }
}
