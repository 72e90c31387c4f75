using Clackbeat.Hydraulics.Water;
using Clackbeat.Sensing.Calibrating;
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

    /// <summary>Timed bucket tests. Those of the record at hand calibrate its flows; the others are compared with them.</summary>
    public IReadOnlyList<BucketTest> BucketTests { get; init; } = [];

    /// <summary>What a bucket test of this setting found the flows to be, over what the pressure gave.</summary>
    public FlowScale? FlowScale { get; init; }

    /// <summary>Height of the ram above sea level [m].</summary>
    public double? AltitudeM { get; init; }

    /// <summary>Pressure of the air around the ram [Pa absolute], by its altitude; sea level where the file gives none.</summary>
    public double AtmospherePa => AtmosphereAtPa(AltitudeM);

    /// <summary>Pressure of the air at an altitude [Pa absolute], ISO 2533:1975. Weather moves it by about ±3 %.</summary>
    /// <param name="altitudeM">Altitude [m]; null takes sea level.</param>
    public static double AtmosphereAtPa(double? altitudeM) => Constants.AtmosphereAtAltitudePa(altitudeM ?? 0);

    /// <summary>Where the ram stands, in words.</summary>
    public string? Place { get; init; }

    /// <summary>Who looks after it.</summary>
    public string? Keeper { get; init; }

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

    /// <summary>The stand pipe between feed and drive pipe; null without one.</summary>
    public StandPipe? StandPipe { get; init; }

    /// <summary>Other rams that draw on the same tank, stand pipe or feed; null when nobody said.</summary>
    public int? OtherRams { get; init; }
}

/// <summary>An open pipe or small tank near the ram whose water level the beat moves, filled by a feed pipe from the source.</summary>
public sealed record StandPipe
{
    /// <summary>Inside diameter of the stand pipe, or of a round tank with the same surface [m].</summary>
    public required double BoreM { get; init; }

    /// <summary>Length of the feed pipe from the source [m].</summary>
    public double? FeedLengthM { get; init; }

    /// <summary>Bore of the feed pipe [m].</summary>
    public double? FeedBoreM { get; init; }
}

/// <summary>How a pipe or valve lets its water go.</summary>
public enum OutletKind
{
    /// <summary>Into the air: the outlet's height counts.</summary>
    Free,

    /// <summary>Under water: the height of that water's surface counts.</summary>
    Drowned,
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

    /// <summary>How the main ends; null when nobody said.</summary>
    public OutletKind? Outlet { get; init; }
}

/// <summary>The pressure sensor.</summary>
public sealed record Sensor
{
    /// <summary>
    /// The sensor measures against a vacuum. Its range here and the pressures of a recording are gauge all the same; only a table's
    /// column holds what the sensor said.
    /// </summary>
    public bool IsAbsolute { get; init; }

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

    /// <summary>Name of the calibration file, as the site file gives it.</summary>
    public string? CalibrationFile { get; init; }

    /// <summary>The calibration in that file; null without one, or where the site was read from a text alone.</summary>
    public Calibration? Calibration { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of the gain after calibration, as a share of the reading.</summary>
    public double? GainUncertainty { get; init; }

    /// <summary>Expanded uncertainty (k = 2) of the zero after calibration [Pa].</summary>
    public double? OffsetUncertaintyPa { get; init; }

    /// <summary>Response time, 10 to 90 % of a step [s].</summary>
    public double? ResponseTimeS { get; init; }

    /// <summary>Time from switching its supply on until it reads true [s].</summary>
    public double? SettlingTimeS { get; init; }

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

    /// <summary>Bore of the snifter, the small hole that lets air in at each recoil and spits at each knock [m].</summary>
    public double? SnifterBoreM { get; init; }
}

/// <summary>What makes a waste valve open and shut.</summary>
public enum WasteValveKind
{
    /// <summary>A plug or disc that its weight opens, between a seat and a stop.</summary>
    WeightedPlug,

    /// <summary>A plug or disc that a spring opens.</summary>
    SpringPlug,

    /// <summary>A hinged flap, as in a swing check; it floats on the flow and has no stop within it.</summary>
    Flap,
}

/// <summary>The waste valve.</summary>
public sealed record WasteValve
{
    /// <summary>What it is; null when nobody said.</summary>
    public WasteValveKind? Kind { get; init; }

    /// <summary>How many of them stand side by side; 1 where the file leaves it out.</summary>
    public int Count { get; init; } = 1;

    /// <summary>How it lets the water go; null when nobody said.</summary>
    public OutletKind? Outlet { get; init; }

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
