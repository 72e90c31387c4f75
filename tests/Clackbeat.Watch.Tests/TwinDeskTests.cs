using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Changes;
using Clackbeat.Watch.Twins;

namespace Clackbeat.Watch.Tests;

/// <summary>The twin of the newest minute, and what readers may ask of it.</summary>
public class TwinDeskTests
{
    [Fact]
    public void A_minute_without_beats_gives_no_twin_and_says_so()
    {
        var desk = new TwinDesk(Rams.Site, () => null, CancellationToken.None);
        Assert.Equal("none", TwinMessage.Of(desk).Phase);
        desk.Begin();
        desk.Join();
        Assert.Equal("few-beats", TwinMessage.Of(desk).Phase);
        Assert.Null(desk.Try(new TwinWish(-10, null, null, null, null), CancellationToken.None));
    }

    // docs/twin.md: the flows of flaps were wrong by a factor, so nothing is predicted for them.
    [Fact]
    public void A_flap_gets_a_drawing_and_no_sliders()
    {
        RamSite flap = Rams.Site with { WasteValve = Rams.Site.WasteValve with { Kind = WasteValveKind.Flap } };
        var desk = new TwinDesk(flap, () => Minute(Rams.Site), CancellationToken.None);
        desk.Begin();
        desk.Join();
        var message = TwinMessage.Of(desk);
        Assert.Contains(message.Phase, new[] { "flap", "no-fit" });
        Assert.Null(message.Knobs);
        Assert.Null(message.AsIs);
        Assert.Null(desk.Try(new TwinWish(-10, null, null, null, null), CancellationToken.None));
    }

    [Fact]
    public void A_twin_that_is_well_answers_and_its_drawing_keeps_the_knock()
    {
        RamAnalysis minute = Minute(Rams.Site);
        var desk = new TwinDesk(Rams.Site, () => minute, CancellationToken.None);
        desk.Begin();
        desk.Join();
        var message = TwinMessage.Of(desk);
        Assert.Equal("ready", message.Phase);
        // The highest point drawn is the median beat's own peak; single beats differ by a few per cent.
        Assert.InRange(1000 * message.Measured!.Kpa.Max() / minute.Pressure.PeakMedianPa!.Value, 0.9, 1.1);

        (LiveTwin _, Prediction told, RamChange change) = desk.Try(new TwinWish(null, 20, null, null, 0), CancellationToken.None)!.Value;
        Assert.Equal(1.2, change.Weight, 9);
        // More weight shuts the valve at a greater flow: a slower beat that wastes more (J. Krol 1951).
        Assert.True(told.RatePerMin!.Value.Value < minute.Beats.RatePerMin!.Value.Value);
        Assert.NotNull(told.VesselSwingPa);
        Assert.Same(desk.State.Live!.Questions.AsIs, desk.Try(new TwinWish(null, null, null, null, message.Air!.Now), CancellationToken.None)!.Value.Told);
    }

    [Fact]
    public void What_is_beyond_a_slider_is_its_end()
    {
        RamChange change = new TwinWish(-500, 1e9, -100, 500, null).Change(Rams.Site, null);
        Assert.Equal((0.5, 1.5), (change.Stroke, change.Weight));
        double lift = Rams.Site.Delivery.HeadM + change.DeliveryHeadM;
        double fall = Rams.Site.Supply.HeadM + change.SupplyHeadM;
        Assert.True(lift >= 0.69 * Rams.Site.Delivery.HeadM && fall <= 1.41 * Rams.Site.Supply.HeadM);
        // An outlet can't come down to the supply by a slider alone.
        RamSite low = Rams.Site with { Delivery = Rams.Site.Delivery with { HeadM = 1.6 * Rams.Site.Supply.HeadM } };
        Assert.True(TwinKnob.For(low).All(k => k.Low <= 0 && k.High >= 0));
        Assert.True(new TwinWish(null, null, -30, null, null).Change(low, null).Site(low).Delivery.HeadM >= 1.5 * low.Supply.HeadM);
    }

    private static RamAnalysis Minute(RamSite site)
    {
        (double[] times, double[] pressures) = Rams.Samples(25);
        var analyser = new RamAnalyser(site);
        analyser.Add(times, pressures);
        return analyser.Finish("live");
    }
}
