using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site;
using Clackbeat.Site.Check;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualSeason;

/// <summary>What the virtual ram does under one supply level, wear and water temperature: means over whole beats, SI.</summary>
internal readonly record struct RamPoint(
    double RatePerMin, double DeliveredM3PerS, double WasteM3PerS, double PeakPa, double DeliveryPa, double SuctionPa,
    double ClosingVelocityMPerS, double RatingUse, double FatiguePerHour, double FatigueLow, double FatigueHigh)
{
    private const double WarmUpS = 10;
    private const double LengthS = 12;

    /// <summary>Runs the virtual ram.</summary>
    /// <exception cref="InputException">It doesn't beat.</exception>
    public static RamPoint Run(RamSite site, RamParameters ram, SensorParameters sensor, Fault fault)
    {
        var beats = new List<VirtualBeat>();
        var simulation = new RamSimulation(ram, sensor, new SimulationOptions { Fault = fault, WarmUpS = WarmUpS });
        simulation.BeatEnded += beats.Add;
        while (simulation.Next().TimeS < LengthS)
        {
        }

        if (simulation.Totals is not { Beats: > 1 } totals)
        {
            throw InputException.Of("virtual.no-year", ("site", site.Name));
        }

        double peakPa = beats.Average(b => b.PeakPa);
        double suctionPa = beats.Average(b => b.SuctionPa);
        PipeLoad load = SiteLoad.Of(site) with { PeakPa = peakPa, TroughPa = suctionPa, BeatsPerMin = totals.BeatsPerMin };
        PipeCheck pipe = PipeRating.Check(load);
        double Hourly(double? years) => years is { } y ? 1 / (y * load.RunningHoursPerYear) : 0;
        return new RamPoint(
            totals.BeatsPerMin!.Value, totals.DeliveredM3 / totals.DurationS, totals.WasteM3 / totals.DurationS, peakPa,
            beats.Average(b => b.PlateauPa ?? peakPa), suctionPa, beats.Average(b => b.ClosingVelocityMPerS), 1 / pipe.Margin ?? 0,
            Hourly(pipe.FatigueLifeYears?.Value), Hourly(pipe.FatigueLifeYears?.High), Hourly(pipe.FatigueLifeYears?.Low));
    }

    /// <summary>The values in order, for sums over all of them.</summary>
    public double[] ToArray() =>
    [
        RatePerMin, DeliveredM3PerS, WasteM3PerS, PeakPa, DeliveryPa, SuctionPa, ClosingVelocityMPerS, RatingUse, FatiguePerHour, FatigueLow, FatigueHigh,
    ];

    /// <summary>Back from <see cref="ToArray"/>.</summary>
    public static RamPoint FromArray(double[] v) => new(v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8], v[9], v[10]);
}
