using Clackbeat.Site.Model;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;

namespace Clackbeat.Watch.Twins;

/// <summary>A slider that changes something by per cent of what it is.</summary>
/// <param name="Id">Which: a key of the page's words.</param>
/// <param name="Low">Its lower end [%].</param>
/// <param name="High">Its upper end [%].</param>
/// <param name="Now">What it is now [m]; null where the site file doesn't say.</param>
internal sealed record TwinKnob(string Id, int Low, int High, double? Now)
{
    /// <summary>From one place to the next [%].</summary>
    public const int Step = 5;

    // Beyond these a twin was never held against a changed ram (docs/twin.md).
    private const int MostOfValve = 50;
    private const int LeastLift = -30;
    private const int MostOfSupply = 40;

    // A ram lifts to some times its fall; nearer to it, it isn't one any more.
    private const double LeastOverFall = 1.5;

    /// <summary>The sliders of a site.</summary>
    /// <param name="site">The site.</param>
    public static IReadOnlyList<TwinKnob> For(RamSite site)
    {
        double room = site.Delivery.HeadM / (LeastOverFall * site.Supply.HeadM);
        return
        [
            new("stroke", -MostOfValve, MostOfValve, site.WasteValve.StrokeM),
            new("weight", -MostOfValve, MostOfValve, null),
            new("delivery", Math.Min(0, Math.Max(LeastLift, Down(100 * ((1 / room) - 1)))), MostOfValve, site.Delivery.HeadM),
            new("supply", -MostOfSupply, Math.Max(0, Math.Min(MostOfSupply, Down(100 * (room - 1)))), site.Supply.HeadM),
        ];
    }

    private static int Down(double percent) => Step * (int)Math.Truncate(percent / Step);
}

/// <summary>Amounts of air that can be tried, from a vessel that lost it to a full one.</summary>
internal static class TwinAirs
{
    /// <summary>How many there are.</summary>
    public const int Count = 9;

    /// <summary>The air at a place of the slider [m³]: in equal ratios, since what a litre does grows as the air goes.</summary>
    public static double M3(VesselAir air, int place) =>
        air.FullM3 * Math.Pow(VesselAir.LostShare, 1 - (Math.Clamp(place, 0, Count - 1) / (Count - 1.0)));

    /// <summary>The place that is nearest to the air of now.</summary>
    public static int Now(VesselAir air) =>
        Enumerable.Range(0, Count).MinBy(i => Math.Abs(Math.Log(M3(air, i) / air.M3)));
}

/// <summary>Where a reader moved the sliders: per cent of what is, and a place among the amounts of air; null or 0 where one wasn't moved.</summary>
internal sealed record TwinWish(double? Stroke, double? Weight, double? Delivery, double? Supply, int? Air)
{
    /// <summary>The change that it asks for, within the ends of the sliders.</summary>
    /// <param name="site">The site.</param>
    /// <param name="air">The vessel's air; null where it can't be changed.</param>
    public RamChange Change(RamSite site, VesselAir? air)
    {
        IReadOnlyList<TwinKnob> knobs = TwinKnob.For(site);
        double Of(int knob, double? percent) => Math.Clamp(percent ?? 0, knobs[knob].Low, knobs[knob].High) / 100;
        return new RamChange
        {
            Stroke = 1 + Of(0, Stroke),
            Weight = 1 + Of(1, Weight),
            DeliveryHeadM = Of(2, Delivery) * site.Delivery.HeadM,
            SupplyHeadM = Of(3, Supply) * site.Supply.HeadM,
            AirM3 = Air is { } place && air is not null && place != TwinAirs.Now(air) ? TwinAirs.M3(air, place) : null,
        };
    }
}
