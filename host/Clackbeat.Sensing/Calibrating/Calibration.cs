using Clackbeat.Sensing.Conversion;

namespace Clackbeat.Sensing.Calibrating;

/// <summary>A sensor's calibration as it is kept: when, how, from which points, and the curve that follows.</summary>
public sealed record Calibration
{
    /// <summary>Day of the calibration.</summary>
    public required DateOnly Date { get; init; }

    /// <summary>The chain it was done with, by the data sheets; the curve corrects what this gives.</summary>
    public required SignalPath Path { get; init; }

    /// <summary>The points with what they say of each other.</summary>
    public required IReadOnlyList<PointResult> Points { get; init; }

    /// <summary>The curve.</summary>
    public required CalibrationCurve Curve { get; init; }

    /// <summary>What the keeper should know of it.</summary>
    public required IReadOnlyList<CalibrationRemark> Warnings { get; init; }
}

/// <summary>How a point stands to the curve.</summary>
/// <param name="Point">The point.</param>
/// <param name="NominalPa">Pressure by the data sheets [Pa gauge].</param>
/// <param name="ResidualPa">Reference less calibrated pressure [Pa]; for an electric point, less what the curve has of divider and converter.</param>
/// <param name="FromOthersPa">Reference less what the other points say [Pa]; null where there are none.</param>
/// <param name="FromOthersUncertaintyPa">Expanded uncertainty (k = 2) of that difference [Pa].</param>
public sealed record PointResult(
    CalibrationPoint Point, double NominalPa, double ResidualPa, double? FromOthersPa, double? FromOthersUncertaintyPa)
{
    /// <summary>The point disagrees with the others beyond what their uncertainties allow.</summary>
    public bool IsPoor => Math.Abs(FromOthersPa ?? 0) > (FromOthersUncertaintyPa ?? double.PositiveInfinity);
}
