using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using UnitsNet;

namespace Clackbeat.Watch.Overview;

/// <summary>Water a day as people say it: litres or gallons.</summary>
public static class DailyWater
{
    /// <summary>A mean flow as water a day, with its ± where it has one.</summary>
    /// <param name="flow">Mean flow through day and night [m³/s].</param>
    /// <param name="units">Units.</param>
    public static string Text(SeasonValue flow, Units units)
    {
        double perDay = Of(flow.Value, units);
        string number = flow.U is { } u ? Phrases.WithMargin(perDay, Of(u, units)) : Phrases.Number(Rounding.Fixed(perDay, Rounding.PlacesOfBare(perDay, 3)));
        string figure = Phrases.Say(units == Units.Us ? "overview.per-day-us" : "overview.per-day-metric", ("figure", number));
        return flow.IsUpperBound ? Phrases.Say("overview.at-most", ("figure", figure)) : figure;
    }

    private static double Of(double flowM3PerS, Units units)
    {
        var flow = VolumeFlow.FromCubicMetersPerSecond(flowM3PerS);
        return units == Units.Us ? flow.UsGallonsPerDay : flow.LitersPerDay;
    }
}
