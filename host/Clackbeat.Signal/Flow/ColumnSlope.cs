namespace Clackbeat.Signal.Flow;

/// <summary>How a velocity of the column moves with what is fitted.</summary>
/// <param name="Supply">With the supply head, or as well with the sensor's bias [1/s].</param>
/// <param name="Losses">With the factor on all losses [m/s].</param>
/// <param name="Start">With the velocity of the column at the start.</param>
internal readonly record struct ColumnSlope(double Supply, double Losses, double Start)
{
    /// <summary>Part of the way from one to another.</summary>
    public static ColumnSlope Between(in ColumnSlope from, in ColumnSlope to, double share) => new(
        from.Supply + (share * (to.Supply - from.Supply)),
        from.Losses + (share * (to.Losses - from.Losses)),
        from.Start + (share * (to.Start - from.Start)));

    /// <summary>The mean of some.</summary>
    public static ColumnSlope Mean(ReadOnlySpan<ColumnSlope> slopes)
    {
        var sum = default(ColumnSlope);
        foreach (ref readonly ColumnSlope slope in slopes)
        {
            sum += slope;
        }

        return sum / slopes.Length;
    }

    public static ColumnSlope operator +(in ColumnSlope a, in ColumnSlope b) => new(a.Supply + b.Supply, a.Losses + b.Losses, a.Start + b.Start);

    public static ColumnSlope operator /(in ColumnSlope a, double b) => new(a.Supply / b, a.Losses / b, a.Start / b);
}
