using Clackbeat.Report.Wording;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Report.Content;

/// <summary>What the site file said, so that a wrong entry can be seen; what it left out is said to be left out.</summary>
internal static class SiteTable
{
    private const string LeftOut = "left out";

    public static Table Make(RamSite site) => new(
        "What the site file says",
        ["Entry", "Value"],
        [
            new TableGroup("Supply", Supply(site.Supply)),
            new TableGroup("Drive pipe", DrivePipe(site.DrivePipe)),
            new TableGroup("Delivery", Delivery(site)),
            new TableGroup("Waste valve", WasteValve(site.WasteValve)),
            new TableGroup("Sensor", Sensor(site.Sensor)),
        ]);

    private static List<TableRow> Supply(Supply supply) =>
    [
        Row("Water level above the datum", Show.Of(Kind.Length, supply.HeadM, 4)),
        Row("How well that is known (±)", Show.Of(Kind.Length, supply.HeadUncertaintyM, 2)),
        Row("Water temperature", Show.Of(Kind.Temperature, supply.WaterTemperatureC)),
    ];

    private static List<TableRow> DrivePipe(DrivePipe pipe) =>
    [
        new("Material", Rich.Empty, [MaterialNames.Of(pipe.Material)]),
        Row("Length", Show.Of(Kind.Length, pipe.LengthM, 4)),
        Row("Bore (inside width)", Show.Of(Kind.Length, pipe.BoreM)),
        Row("Wall", Show.Of(Kind.Length, pipe.WallM)),
        Row("Rating printed on it", Show.Of(Kind.Pressure, pipe.PressureRatingPa)),
        Row("Wave speed", Show.Of(Kind.Speed, pipe.WaveSpeedMPerS)),
    ];

    private static List<TableRow> Delivery(RamSite site) =>
    [
        Row("Outlet above the datum", Show.Of(Kind.Length, site.Delivery.HeadM, 4)),
        Row("Length of the delivery pipe", Show.Of(Kind.Length, site.Delivery.PipeLengthM)),
        Row("Bore of the delivery pipe", Show.Of(Kind.Length, site.Delivery.PipeBoreM)),
        Row("Air vessel", Show.Of(Kind.Volume, site.AirVessel.VolumeM3)),
    ];

    private static List<TableRow> WasteValve(WasteValve valve) =>
    [
        Row("Travel of the plug", Show.Of(Kind.Length, valve.StrokeM)),
        Row("Weight of the plug", Show.Of(Kind.Mass, valve.MassKg)),
        Row("Seat opening", Show.Of(Kind.Length, valve.SeatDiameterM)),
    ];

    private static List<TableRow> Sensor(Sensor sensor) =>
    [
        new("Range", Rich.Empty, [Show.Of(Kind.Pressure, sensor.RangeLowPa) is { } low && Show.Of(Kind.Pressure, sensor.RangeHighPa) is { } high ? Rich.Of($"{low} to {high}") : LeftOut]),
        Row("Height above the datum", Show.Of(Kind.Length, sensor.HeightM)),
    ];

    private static TableRow Row(string name, Measure? value) => new(name, Rich.Empty, [value is { } v ? v : LeftOut]);
}
