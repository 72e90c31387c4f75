using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Hydraulics.Transients;
using Clackbeat.Sensing.Conversion;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Site.Files;

/// <summary>Builds the site from values that passed the schema.</summary>
internal static class SiteBinder
{
    /// <summary>Builds the site; every required value must be there.</summary>
    public static RamSite Bind(SiteValues values) => new()
    {
        Name = values.Get<string>("site", "name")!,
        Note = values.Get<string>("site", "note"),
        Units = values.Get<string>("site", "units") == "us" ? Units.Us : Units.Metric,
        Supply = new Supply
        {
            HeadM = values.Get<double>("supply", "head"),
            HeadUncertaintyM = values.Find<double>("supply", "head_uncertainty"),
            WaterTemperatureC = values.Find<double>("supply", "water_temperature"),
        },
        DrivePipe = DrivePipeFrom(values),
        Delivery = new Delivery
        {
            HeadM = values.Get<double>("delivery", "head"),
            PipeLengthM = values.Find<double>("delivery", "pipe_length"),
            PipeBoreM = values.Find<double>("delivery", "pipe_bore"),
        },
        AirVessel = new AirVessel { VolumeM3 = values.Find<double>("air_vessel", "volume") },
        WasteValve = new WasteValve
        {
            StrokeM = values.Find<double>("waste_valve", "stroke"),
            MassKg = values.Find<double>("waste_valve", "mass"),
            SeatDiameterM = values.Find<double>("waste_valve", "seat_diameter"),
            SpringForceN = values.Find<double>("waste_valve", "spring_force"),
            SpringRateNPerM = values.Find<double>("waste_valve", "spring_rate"),
        },
        Sensor = SensorFrom(values),
        Logger = LoggerFrom(values),
        Battery = BatteryFrom(values),
        Fittings = [.. values.BlocksOf("fitting").Select(b => new Fitting(
            values.Get<string>("fitting", "name", b)!, values.Find<double>("fitting", "pressure_rating", b)))],
        BucketTests = [.. values.BlocksOf("bucket_test").Select(b => BucketTestFrom(values, b))],
    };

    /// <summary>The pipe that is sold by the size and class in the file; null where the tables know none, or several.</summary>
    internal static CataloguePipe? PipeBySize(SiteValues values) =>
        values.Has("drive_pipe", "material") && values.Get<string>("drive_pipe", "size") is { } size
            ? PipeSize.Find(
                values.Get<PipeMaterial>("drive_pipe", "material"),
                size,
                values.Get<string>("drive_pipe", "class"),
                values.Find<double>("drive_pipe", "bore"))
            : null;

    private static DrivePipe DrivePipeFrom(SiteValues values) => DrivePipeFrom(values, PipeBySize(values));

    private static DrivePipe DrivePipeFrom(SiteValues values, CataloguePipe? sold) => new()
    {
        Material = values.Get<PipeMaterial>("drive_pipe", "material"),
        LengthM = values.Get<double>("drive_pipe", "length"),
        LengthUncertaintyM = values.Find<double>("drive_pipe", "length_uncertainty"),
        // What was measured goes before what is sold under the name.
        BoreM = values.Find<double>("drive_pipe", "bore") ?? PipeSize.BoreM(sold!),
        WallM = values.Find<double>("drive_pipe", "wall") ?? WallFromOutside(values) ?? sold?.WallM,
        OutsideDiameterM = values.Find<double>("drive_pipe", "outside_diameter")
            ?? (values.Has("drive_pipe", "wall") ? null : sold?.OutsideDiameterM),
        NominalSize = values.Get<string>("drive_pipe", "size"),
        PressureClass = values.Get<string>("drive_pipe", "class") ?? sold?.Class,
        PressureRatingPa = values.Find<double>("drive_pipe", "pressure_rating"),
        WaveSpeedMPerS = values.Find<double>("drive_pipe", "wave_speed"),
        Restraint = values.Get<string>("drive_pipe", "restraint") switch
        {
            "anchored" => PipeRestraint.AnchoredThroughout,
            "anchored upstream" => PipeRestraint.AnchoredUpstream,
            "expansion joints" => PipeRestraint.ExpansionJoints,
            _ => null,
        },
        Threaded = values.Find<bool>("drive_pipe", "threaded"),
        HighestTemperatureC = values.Find<double>("drive_pipe", "highest_temperature"),
        RoughnessM = values.Find<double>("drive_pipe", "roughness"),
        MinorLossCoefficient = values.Find<double>("drive_pipe", "minor_loss"),
    };

    private static double? WallFromOutside(SiteValues values) =>
        values.Find<double>("drive_pipe", "outside_diameter") is { } outside && values.Find<double>("drive_pipe", "bore") is { } bore
            ? (outside - bore) / 2
            : null;

    private static Sensor SensorFrom(SiteValues values)
    {
        var range = values.Get<Band>("sensor", "range");
        return new Sensor
        {
            RangeLowPa = range.Low,
            RangeHighPa = range.High,
            Output = OutputFrom(values),
            SupplyV = values.Find<double>("sensor", "supply"),
            HeightM = values.Get<double>("sensor", "height"),
            AccuracyShareOfSpan = values.Find<double>("sensor", "accuracy"),
            GainUncertainty = values.Find<double>("sensor", "gain_uncertainty"),
            OffsetUncertaintyPa = values.Find<double>("sensor", "offset_uncertainty"),
            ResponseTimeS = values.Find<double>("sensor", "response_time"),
            TapLineLengthM = values.Find<double>("sensor", "tap_line_length"),
            TapLineBoreM = values.Find<double>("sensor", "tap_line_bore"),
        };
    }

    // What follows the supply is a matter of its own key; left out, volts do and milliamperes don't.
    private static SensorOutput? OutputFrom(SiteValues values)
    {
        var output = values.Find<SensorOutput>("sensor", "output");
        return values.Find<bool>("sensor", "ratiometric") is { } follows
            ? (output ?? SensorOutput.RatiometricHalfToFourAndAHalfVolts) with { FollowsSupply = follows }
            : output;
    }

    private static LoggerSetup LoggerFrom(SiteValues values) => new()
    {
        SamplingRateHz = values.Find<double>("logger", "sampling_rate"),
        DividerUpperOhm = values.Find<double>("logger", "divider_upper"),
        DividerLowerOhm = values.Find<double>("logger", "divider_lower"),
        ShuntOhm = values.Find<double>("logger", "shunt"),
        SupplyDividerUpperOhm = values.Find<double>("logger", "supply_divider_upper"),
        SupplyDividerLowerOhm = values.Find<double>("logger", "supply_divider_lower"),
        ResistorTolerance = values.Find<double>("logger", "resistor_tolerance"),
        FilterResistorOhm = values.Find<double>("logger", "filter_resistor"),
        FilterCapacitorF = values.Find<double>("logger", "filter_capacitor"),
        ConverterZeroV = values.Find<double>("logger", "converter_zero"),
        ConverterFullScaleV = values.Find<double>("logger", "converter_full_scale"),
        ConverterWindowV = values.Find<Band>("logger", "converter_window"),
        ConverterBits = values.Find<int>("logger", "converter_bits"),
    };

    private static BatterySetup BatteryFrom(SiteValues values) => new()
    {
        CapacityC = values.Find<double>("battery", "capacity"),
        UsableShare = values.Find<double>("battery", "usable"),
        BurstLengthS = values.Find<double>("battery", "burst_length"),
        BurstIntervalS = values.Find<double>("battery", "burst_interval"),
        AwakeA = values.Find<double>("battery", "current_awake"),
        AsleepA = values.Find<double>("battery", "current_asleep"),
    };

    private static BucketTest BucketTestFrom(SiteValues values, int block) => new()
    {
        Outlet = values.Get<string>("bucket_test", "outlet", block) == "waste" ? BucketOutlet.Waste : BucketOutlet.Delivery,
        VolumeM3 = values.Get<double>("bucket_test", "volume", block),
        VolumeUncertaintyM3 = values.Find<double>("bucket_test", "volume_uncertainty", block),
        TimeS = values.Get<double>("bucket_test", "time", block),
        Date = values.Find<DateOnly>("bucket_test", "date", block),
    };
}
