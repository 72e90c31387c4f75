using Clackbeat.Hydraulics;
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
        AltitudeM = values.Find<double>("site", "altitude"),
        Place = values.Get<string>("site", "place"),
        Keeper = values.Get<string>("site", "keeper"),
        Note = values.Get<string>("site", "note"),
        Units = values.Get<string>("site", "units") == "us" ? Units.Us : Units.Metric,
        Supply = new Supply
        {
            HeadM = values.Get<double>("supply", "head"),
            HeadUncertaintyM = values.Find<double>("supply", "head_uncertainty"),
            WaterTemperatureC = values.Find<double>("supply", "water_temperature"),
            StandPipe = StandPipeFrom(values),
            OtherRams = values.Find<int>("supply", "other_rams"),
        },
        DrivePipe = PipeBinder.Bind(values),
        Delivery = new Delivery
        {
            HeadM = values.Get<double>("delivery", "head"),
            PipeLengthM = values.Find<double>("delivery", "pipe_length"),
            PipeBoreM = values.Find<double>("delivery", "pipe_bore"),
            Outlet = OutletFrom(values, "delivery"),
        },
        AirVessel = new AirVessel
        {
            VolumeM3 = values.Find<double>("air_vessel", "volume"),
            SnifterBoreM = values.Find<double>("air_vessel", "snifter_bore"),
        },
        WasteValve = new WasteValve
        {
            Kind = values.Get<string>("waste_valve", "kind") switch
            {
                "weighted plug" => WasteValveKind.WeightedPlug,
                "spring plug" => WasteValveKind.SpringPlug,
                "flap" => WasteValveKind.Flap,
                _ => null,
            },
            Count = values.Find<int>("waste_valve", "count") ?? 1,
            Outlet = OutletFrom(values, "waste_valve"),
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
        FlowScale = FlowScaleFrom(values),
        BucketTests = [.. values.BlocksOf("bucket_test").Select(b => BucketTestFrom(values, b))],
    };

    private static StandPipe? StandPipeFrom(SiteValues values) =>
        values.Find<double>("supply", "stand_pipe_bore") is { } bore
            ? new StandPipe
            {
                BoreM = bore,
                FeedLengthM = values.Find<double>("supply", "feed_length"),
                FeedBoreM = values.Find<double>("supply", "feed_bore"),
            }
            : null;

    private static OutletKind? OutletFrom(SiteValues values, string table) => values.Get<string>(table, "outlet") switch
    {
        "free" => OutletKind.Free,
        "drowned" => OutletKind.Drowned,
        _ => null,
    };

    private static Sensor SensorFrom(SiteValues values)
    {
        Band range = values.Get<Band>("sensor", "range");
        bool absolute = values.Get<string>("sensor", "pressure") == "absolute";

        // The range becomes gauge here, so that counts turn into gauge pressure by the range alone.
        double zeroPa = absolute ? RamSite.AtmosphereAtPa(values.Find<double>("site", "altitude")) : 0;
        return new Sensor
        {
            IsAbsolute = absolute,
            RangeLowPa = range.Low - zeroPa,
            RangeHighPa = range.High - zeroPa,
            Output = OutputFrom(values),
            SupplyV = values.Find<double>("sensor", "supply"),
            HeightM = values.Get<double>("sensor", "height"),
            AccuracyShareOfSpan = values.Find<double>("sensor", "accuracy"),
            CalibrationFile = values.Get<string>("sensor", "calibration"),
            GainUncertainty = values.Find<double>("sensor", "gain_uncertainty"),
            OffsetUncertaintyPa = values.Find<double>("sensor", "offset_uncertainty"),
            ResponseTimeS = values.Find<double>("sensor", "response_time"),
            SettlingTimeS = values.Find<double>("sensor", "settling_time"),
            TapLineLengthM = values.Find<double>("sensor", "tap_line_length"),
            TapLineBoreM = values.Find<double>("sensor", "tap_line_bore"),
        };
    }

    // What follows the supply is a matter of its own key; left out, volts do and milliamperes don't.
    private static SensorOutput? OutputFrom(SiteValues values)
    {
        SensorOutput? output = values.Find<SensorOutput>("sensor", "output");
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
        BatteryDividerUpperOhm = values.Find<double>("logger", "battery_divider_upper"),
        BatteryDividerLowerOhm = values.Find<double>("logger", "battery_divider_lower"),
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
        CutOffV = values.Find<double>("battery", "cut_off"),
        UsableShare = values.Find<double>("battery", "usable"),
        BurstLengthS = values.Find<double>("battery", "burst_length"),
        BurstIntervalS = values.Find<double>("battery", "burst_interval"),
        AwakeA = values.Find<double>("battery", "current_awake"),
        AsleepA = values.Find<double>("battery", "current_asleep"),
    };

    private static FlowScale? FlowScaleFrom(SiteValues values)
    {
        var scale = new FlowScale
        {
            Delivered = values.Find<double>("flow_scale", "delivered"),
            DeliveredUncertainty = values.Find<double>("flow_scale", "delivered_uncertainty") ?? FlowScale.UsualUncertainty,
            Waste = values.Find<double>("flow_scale", "waste"),
            WasteUncertainty = values.Find<double>("flow_scale", "waste_uncertainty") ?? FlowScale.UsualUncertainty,
            Date = values.Find<DateOnly>("flow_scale", "date"),
            Setup = values.Get<string>("flow_scale", "setup"),
        };
        return scale.Delivered is null && scale.Waste is null ? null : scale;
    }

    private static BucketTest BucketTestFrom(SiteValues values, int block) => new()
    {
        Outlet = values.Get<string>("bucket_test", "outlet", block) == "waste" ? BucketOutlet.Waste : BucketOutlet.Delivery,
        VolumeM3 = values.Get<double>("bucket_test", "volume", block),
        VolumeUncertaintyM3 = values.Find<double>("bucket_test", "volume_uncertainty", block),
        TimeS = values.Get<double>("bucket_test", "time", block),
        Date = values.Find<DateOnly>("bucket_test", "date", block),
    };
}
