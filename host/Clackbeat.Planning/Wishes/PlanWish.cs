using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Planning.Demand;

namespace Clackbeat.Planning.Wishes;

/// <summary>What somebody with a spring wants planned. SI; null means that nobody said.</summary>
public sealed record PlanWish
{
    /// <summary>Fall: water level at the intake above the waste valve's outlet [m].</summary>
    public required double SupplyHeadM { get; init; }

    /// <summary>Flow of the spring that the rams may take, in a usual month [m³/s].</summary>
    public required double SupplyFlowM3PerS { get; init; }

    /// <summary>Flow in the driest time [m³/s].</summary>
    public double? DryFlowM3PerS { get; init; }

    /// <summary>Flow of the spring in each month, January first [m³/s]; empty where only one flow is known.</summary>
    public IReadOnlyList<double> MonthlyFlowM3PerS { get; init; } = [];

    /// <summary>Lift: the delivery's outlet above the waste valve's outlet [m].</summary>
    public required double LiftM { get; init; }

    /// <summary>Water that is needed in each month, January first [m³/s]; empty where nobody said.</summary>
    public IReadOnlyList<double> MonthlyNeedM3PerS { get; init; } = [];

    /// <summary>People and animals among that need.</summary>
    public IReadOnlyList<NeedUse> Uses { get; init; } = [];

    /// <summary>How the ram is made.</summary>
    public RamKind Kind { get; init; }

    /// <summary>Longest drive pipe that the ground allows [m].</summary>
    public double? LongestDrivePipeM { get; init; }

    /// <summary>Shortest drive pipe that the ground allows [m].</summary>
    public double? ShortestDrivePipeM { get; init; }

    /// <summary>Length of the delivery main [m].</summary>
    public double? DeliveryLengthM { get; init; }

    /// <summary>Material of the drive pipe.</summary>
    public PipeMaterial DriveMaterial { get; init; } = PipeMaterial.GalvanisedSteel;

    /// <summary>The delivery main is bought in North America, by inches.</summary>
    public bool InchMain { get; init; }

    /// <summary>Temperature of the water [°C].</summary>
    public double WaterTemperatureC { get; init; } = 12;

    /// <summary>Share of the year's need that may stay unmet when a tank is sized.</summary>
    public double Shortfall { get; init; } = 0.02;

    /// <summary>Hours of full sun (1 kW/m² on the panel) a day in each month, January first; empty where nobody said.</summary>
    public IReadOnlyList<double> SunHours { get; init; } = [];

    /// <summary>The user's own prices by the item's name, in one currency.</summary>
    public IReadOnlyDictionary<string, double> Prices { get; init; } = new Dictionary<string, double>();

    /// <summary>The user's price of an item of <see cref="Bills.PriceNames"/>; null where none was given.</summary>
    public double? PriceOf(string item) => Prices.TryGetValue(item, out double price) ? price : null;

    /// <summary>The dry flow, or the least of the months, or the usual flow where nothing else is known [m³/s].</summary>
    public double LeastFlowM3PerS => MonthlyFlowM3PerS.Append(DryFlowM3PerS ?? SupplyFlowM3PerS).Min();
}
