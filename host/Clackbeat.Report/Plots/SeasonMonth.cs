namespace Clackbeat.Report.Plots;

/// <summary>A month.</summary>
/// <param name="Month">Its first day.</param>
/// <param name="DeliveredM3">Water delivered [m³]; null where none was metered.</param>
/// <param name="DeliveredU">Its expanded uncertainty [m³].</param>
/// <param name="RunningH">Hours it beat.</param>
/// <param name="StoppedH">Hours it stood.</param>
/// <param name="UnknownH">Hours nobody recorded, or whose flow isn't known.</param>
public sealed record SeasonMonth(DateOnly Month, double? DeliveredM3, double DeliveredU, double RunningH, double StoppedH, double UnknownH)
{
    /// <summary>True where the water is an upper bound: less may have arrived.</summary>
    public bool IsUpperBound { get; init; }
}
