using Clackbeat.Signal.Figures;
namespace Clackbeat.Signal.Flow;

/// <summary>Efficiencies as fractions.</summary>
public sealed record EfficiencySummary
{
    /// <summary>q h / ((q + w) H).</summary>
    public Figure? DAubuisson { get; init; }

    /// <summary>q (h − H) / (w H).</summary>
    public Figure? Rankine { get; init; }

    /// <summary>Energy through the delivery valve over energy drawn.</summary>
    public Figure? DriveSide { get; init; }
}
