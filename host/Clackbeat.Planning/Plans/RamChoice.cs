using Clackbeat.Hydraulics;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Planning.Pipework;
using Clackbeat.Planning.Wishes;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Planning.Plans;

/// <summary>One way to do it: so many rams of one size, with their pipes, and what they give.</summary>
public sealed record RamChoice
{
    /// <summary>The wish it answers.</summary>
    public required PlanWish Wish { get; init; }

    /// <summary>Number of rams, each with a drive pipe of its own.</summary>
    public required int Count { get; init; }

    /// <summary>Size of each drive pipe.</summary>
    public required DriveSize Size { get; init; }

    /// <summary>Length of each drive pipe and why.</summary>
    public required DriveLength Length { get; init; }

    /// <summary>Delivery main shared by the rams.</summary>
    public required DeliveryMain Main { get; init; }

    /// <summary>Drive flow that all rams take together in a usual month [m³/s].</summary>
    public required double DriveFlowM3PerS { get; init; }

    /// <summary>D'Aubuisson efficiency.</summary>
    public required Band Efficiency { get; init; }

    /// <summary>Delivered by all rams together in a usual month [m³/s].</summary>
    public required Band DeliveredM3PerS { get; init; }

    /// <summary>The same at the least flow that the spring was said to have [m³/s]; 0 to 0 where no ram runs then.</summary>
    public required Band DryDeliveredM3PerS { get; init; }

    /// <summary>Each month, January first; empty where only one flow is known.</summary>
    public required IReadOnlyList<PlanMonth> Months { get; init; }

    /// <summary>Beats a minute of one ram.</summary>
    public required Band BeatsPerMin { get; init; }

    /// <summary>Highest pressure in the drive pipe [Pa gauge].</summary>
    public required Band PeakPa { get; init; }

    /// <summary>The drive pipe judged under the upper end of the peak.</summary>
    public required PipeCheck Pipe { get; init; }

    /// <summary>Air vessel of each ram, inside volume [m³].</summary>
    public required double AirVesselM3 { get; init; }

    /// <summary>Intake of each ram.</summary>
    public required Intake Intake { get; init; }

    /// <summary>One ram of it as a site file has it.</summary>
    public required RamSite Site { get; init; }

    /// <summary>The text of that file.</summary>
    public required string SiteText { get; init; }

    /// <summary>What the virtual ram on this pipe did; null where it was not run or doesn't beat.</summary>
    public VirtualTrial? Trial { get; init; }

    /// <summary>What decides each part, with its source.</summary>
    public required IReadOnlyList<Fact> Reasons { get; init; }
}

/// <summary>A month of a plan.</summary>
/// <param name="Month">1 for January.</param>
/// <param name="SupplyM3PerS">The spring [m³/s].</param>
/// <param name="Running">Rams that run.</param>
/// <param name="DeliveredM3PerS">Delivered together [m³/s].</param>
/// <param name="NeedM3PerS">Needed [m³/s]; null where nobody said.</param>
public sealed record PlanMonth(int Month, double SupplyM3PerS, int Running, Band DeliveredM3PerS, double? NeedM3PerS);
