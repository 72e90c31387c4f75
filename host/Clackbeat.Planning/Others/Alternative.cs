using Clackbeat.Hydraulics;
using Clackbeat.Planning.Bills;
using Clackbeat.Site.Facts;

namespace Clackbeat.Planning.Others;

/// <summary>Another pump on the same water.</summary>
public sealed record Alternative
{
    /// <summary>A turbine that drives a pump.</summary>
    public const string TurbinePump = "turbine-pump";

    /// <summary>A pump on solar panels.</summary>
    public const string SolarPump = "solar-pump";

    /// <summary>A pump with a petrol engine.</summary>
    public const string EnginePump = "engine-pump";

    /// <summary>A pump on the mains.</summary>
    public const string MainsPump = "mains-pump";

    /// <summary>What it is: <c>turbine-pump</c>, <c>solar-pump</c>, <c>engine-pump</c> or <c>mains-pump</c>.</summary>
    public required string Code { get; init; }

    /// <summary>Water it brings up in each month, January first [m³/s]; one entry where the months don't differ.</summary>
    public required IReadOnlyList<Band> WaterM3PerS { get; init; }

    /// <summary>Energy it takes from fuel, mains or panels a day for that water [J]; 0 to 0 for one that takes only the water's own.</summary>
    public required Band EnergyPerDayJ { get; init; }

    /// <summary>
    /// What it takes in each month for that water, January first: panels [W], litres of petrol or kilowatt hours a day; nothing for a turbine.
    /// </summary>
    public required IReadOnlyList<Band> Takes { get; init; }

    /// <summary>Power or panel to buy [W]: shaft power of a pump, rated power of panels.</summary>
    public required Band PowerW { get; init; }

    /// <summary>What runs up at each year: fuel or kilowatt hours, with the user's price where given.</summary>
    public required IReadOnlyList<BillItem> Bill { get; init; }

    /// <summary>What was taken, with its source.</summary>
    public required IReadOnlyList<Fact> Assumptions { get; init; }

    /// <summary>Parts that wear.</summary>
    public required Fact Wear { get; init; }

    /// <summary>Water in a month, 0 for January [m³/s].</summary>
    public Band WaterIn(int month) => WaterM3PerS.Count == 12 ? WaterM3PerS[month] : WaterM3PerS[0];
}
