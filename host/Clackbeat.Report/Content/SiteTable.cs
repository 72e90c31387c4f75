using Clackbeat.Report.Wording;
using Clackbeat.Site.Model;
using Clackbeat.Words;

namespace Clackbeat.Report.Content;

/// <summary>What the site file said, so that a wrong entry can be seen; what it left out is said to be left out.</summary>
internal static class SiteTable
{
    private static string LeftOut => Phrases.Say("report.left-out");

    public static Table Make(RamSite site) => new(
        Phrases.Say("report.what-site-file-says"),
        [Phrases.Say("report.entry"), Phrases.Say("report.value")],
        [
            new TableGroup(Phrases.Say("report.supply"), Supply(site.Supply)),
            .. DrivePipe(site.DrivePipe),
            new TableGroup(Phrases.Say("report.delivery"), Delivery(site)),
            new TableGroup(Phrases.Say("report.waste-valve"), WasteValve(site.WasteValve)),
            new TableGroup(Phrases.Say("report.sensor"), Sensor(site.Sensor)),
        ]);

    private static List<TableRow> Supply(Supply supply) =>
    [
        Row(Phrases.Say("report.water-level-above-datum"), Show.Of(Kind.Length, supply.HeadM, 4)),
        Row(Phrases.Say("report.how-well-known"), Show.Of(Kind.Length, supply.HeadUncertaintyM, 2)),
        Row(Phrases.Say("report.water-temperature"), Show.Of(Kind.Temperature, supply.WaterTemperatureC)),
    ];

    private static IEnumerable<TableGroup> DrivePipe(DrivePipe pipe) => pipe.IsMixed
        ? pipe.Sections.Select((s, i) => new TableGroup(Phrases.Say("report.drive-pipe-section-intake", ("i", i + 1)), Section(s)))
        : [new TableGroup(Phrases.Say("report.drive-pipe"), Section(pipe.AtRam))];

    private static List<TableRow> Section(PipeSection pipe) =>
    [
        new(Phrases.Say("report.material"), Rich.Empty, [Catalogue.Current.Say($"materials.{pipe.Material}")]),
        Row(Phrases.Say("report.length"), Show.Of(Kind.Length, pipe.LengthM, 4)),
        Row(Phrases.Say("report.bore-inside-width"), Show.Of(Kind.Length, pipe.BoreM)),
        Row(Phrases.Say("report.wall"), Show.Of(Kind.Length, pipe.WallM)),
        Row(Phrases.Say("report.rating-printed"), Show.Of(Kind.Pressure, pipe.PressureRatingPa)),
        Row(Phrases.Say("report.wave-speed"), Show.Of(Kind.Speed, pipe.WaveSpeedMPerS)),
    ];

    private static List<TableRow> Delivery(RamSite site) =>
    [
        Row(Phrases.Say("report.outlet-above-datum"), Show.Of(Kind.Length, site.Delivery.HeadM, 4)),
        Row(Phrases.Say("report.length-delivery-pipe"), Show.Of(Kind.Length, site.Delivery.PipeLengthM)),
        Row(Phrases.Say("report.bore-delivery-pipe"), Show.Of(Kind.Length, site.Delivery.PipeBoreM)),
        Row(Phrases.Say("report.air-vessel"), Show.Of(Kind.Volume, site.AirVessel.VolumeM3)),
    ];

    private static List<TableRow> WasteValve(WasteValve valve) =>
    [
        Row(Phrases.Say("report.travel-plug"), Show.Of(Kind.Length, valve.StrokeM)),
        Row(Phrases.Say("report.weight-plug"), Show.Of(Kind.Mass, valve.MassKg)),
        Row(Phrases.Say("report.seat-opening"), Show.Of(Kind.Length, valve.SeatDiameterM)),
    ];

    private static List<TableRow> Sensor(Sensor sensor) =>
    [
        new(Phrases.Say("report.range"), Rich.Empty, [Show.Of(Kind.Pressure, sensor.RangeLowPa) is { } low && Show.Of(Kind.Pressure, sensor.RangeHighPa) is { } high ? Rich.Say("report.range-to", ("low", low), ("high", high)) : LeftOut]),
        Row(Phrases.Say("report.height-above-datum"), Show.Of(Kind.Length, sensor.HeightM)),
    ];

    private static TableRow Row(string name, Measure? value) => new(name, Rich.Empty, [value is { } v ? v : LeftOut]);
}
