using Clackbeat.Hydraulics;

namespace Clackbeat.Planning.Demand;

/// <summary>Delivered water beside the need, month by month, and the tank between them.</summary>
public sealed record Sufficiency
{
    /// <summary>Needed in each month, January first [m³/s].</summary>
    public required IReadOnlyList<double> NeedM3PerS { get; init; }

    /// <summary>Delivered in each month [m³/s].</summary>
    public required IReadOnlyList<Band> DeliveredM3PerS { get; init; }

    /// <summary>Share of the year's need that may stay unmet.</summary>
    public required double Shortfall { get; init; }

    /// <summary>Tank for that, by the middle of the band [m³]; null where no tank helps.</summary>
    public required double? TankM3 { get; init; }

    /// <summary>The same by the lower end of the band [m³].</summary>
    public required double? CautiousTankM3 { get; init; }

    /// <summary>Months in which even the upper end of the band is less than the need; 1 for January.</summary>
    public required IReadOnlyList<int> ShortMonths { get; init; }

    /// <summary>Months in which it is enough by the middle of the band and not by its lower end.</summary>
    public required IReadOnlyList<int> DoubtfulMonths { get; init; }

    /// <summary>Sets one beside the other.</summary>
    /// <param name="delivered">Delivered in each of twelve months [m³/s].</param>
    /// <param name="needed">Needed in each [m³/s].</param>
    /// <param name="shortfall">Share that may stay unmet.</param>
    public static Sufficiency Of(IReadOnlyList<Band> delivered, IReadOnlyList<double> needed, double shortfall)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(delivered.Count, 12);
        ArgumentOutOfRangeException.ThrowIfNotEqual(needed.Count, 12);
        int[] months = [.. Enumerable.Range(1, 12)];
        return new Sufficiency
        {
            NeedM3PerS = needed,
            DeliveredM3PerS = delivered,
            Shortfall = shortfall,
            TankM3 = StorageTank.SizeM3([.. delivered.Select(d => d.Middle)], needed, shortfall),
            CautiousTankM3 = StorageTank.SizeM3([.. delivered.Select(d => d.Low)], needed, shortfall),
            ShortMonths = [.. months.Where(m => delivered[m - 1].High < needed[m - 1])],
            DoubtfulMonths = [.. months.Where(m => delivered[m - 1].High >= needed[m - 1] && delivered[m - 1].Low < needed[m - 1])],
        };
    }
}
