using Clackbeat.Season.Store;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
using UnitsNet;

namespace Clackbeat.Watch.Overview;

/// <summary>Water a day as people say it: litres or gallons.</summary>
public static class DailyWater
{
    private const string Litre = "L";
    private const string Gallon = "gal";

    /// <summary>A mean flow as water a day, with its ± where it has one.</summary>
    /// <param name="flow">Mean flow through day and night [m³/s].</param>
    /// <param name="units">Units.</param>
    public static string Text(SeasonValue flow, Units units)
    {
        double perDay = Of(flow.Value, units);
        string number = flow.U is { } u ? Phrases.WithMargin(perDay, Of(u, units)) : Phrases.Number(Rounding.Fixed(perDay, Rounding.PlacesOfBare(perDay, 3)));
        // A figure stays in one line with its ± and its unit.
        string figure = $"{number} {(units == Units.Us ? Gallon : Litre)}".Replace(' ', '\u00a0');
        return flow.IsUpperBound ? Phrases.Say("overview.at-most", ("figure", figure)) : figure;
    }

    private static double Of(double flowM3PerS, Units units)
    {
        var flow = VolumeFlow.FromCubicMetersPerSecond(flowM3PerS);
        return units == Units.Us ? flow.UsGallonsPerDay : flow.LitersPerDay;
    }
}
