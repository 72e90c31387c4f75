namespace Clackbeat.Signal.Flow;

/// <summary>How a velocity of the column moves with what is fitted.</summary>
/// <param name="Supply">With the supply head, or as well with the sensor's bias [1/s].</param>
/// <param name="Losses">With the factor on all losses [m/s].</param>
/// <param name="Start">With the velocity of the column at the start.</param>
internal readonly record struct ColumnSensitivity(double Supply, double Losses, double Start)
{
    /// <summary>Part of the way from one to another.</summary>
    public static ColumnSensitivity Between(in ColumnSensitivity from, in ColumnSensitivity to, double share) => new(
        from.Supply + (share * (to.Supply - from.Supply)),
        from.Losses + (share * (to.Losses - from.Losses)),
        from.Start + (share * (to.Start - from.Start)));

    /// <summary>The mean of some.</summary>
    public static ColumnSensitivity Mean(ReadOnlySpan<ColumnSensitivity> sensitivities)
    {
        var sum = default(ColumnSensitivity);
        foreach (ref readonly ColumnSensitivity sensitivity in sensitivities)
        {
            sum += sensitivity;
        }

        return sum / sensitivities.Length;
    }

    public static ColumnSensitivity operator +(in ColumnSensitivity a, in ColumnSensitivity b) =>
        new(a.Supply + b.Supply, a.Losses + b.Losses, a.Start + b.Start);

    public static ColumnSensitivity operator -(in ColumnSensitivity a, in ColumnSensitivity b) =>
        new(a.Supply - b.Supply, a.Losses - b.Losses, a.Start - b.Start);

    public static ColumnSensitivity operator /(in ColumnSensitivity a, double b) =>
        new(a.Supply / b, a.Losses / b, a.Start / b);
}
