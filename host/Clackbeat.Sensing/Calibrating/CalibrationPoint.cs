namespace Clackbeat.Sensing.Calibrating;

/// <summary>What a calibration point was held against.</summary>
public enum ReferenceKind
{
    /// <summary>The sensor open to the air: gauge pressure 0.</summary>
    Air,

    /// <summary>A standing column of water of measured height.</summary>
    Column,

    /// <summary>A pressure gauge, with a hand pump or on the running works.</summary>
    Gauge,

    /// <summary>
    /// No pressure at all: a voltage or current fed in place of the sensor and read by a meter, as the pressure that the
    /// sensor's data sheet gives for it. Such a point tells of divider and converter, not of the sensor.
    /// </summary>
    Electric,
}

/// <summary>A known pressure and what the converter read under it.</summary>
public sealed record CalibrationPoint
{
    /// <summary>What the point was held against.</summary>
    public required ReferenceKind Reference { get; init; }

    /// <summary>The reference as the person wrote it, such as "5 m".</summary>
    public required string Text { get; init; }

    /// <summary>Reference pressure [Pa gauge].</summary>
    public required double PressurePa { get; init; }

    /// <summary>Standard uncertainty of the reference that is this point's own, such as reading a tape [Pa].</summary>
    public required double OwnUncertaintyPa { get; init; }

    /// <summary>Standard uncertainty that all points of the same reference share, such as a gauge's class [Pa].</summary>
    public double CommonUncertaintyPa { get; init; }

    /// <summary>Mean reading [counts].</summary>
    public required double Counts { get; init; }

    /// <summary>Standard uncertainty of that mean [counts]; a single typed reading is good to its rounding, 0.29.</summary>
    public double CountsUncertainty { get; init; } = 1 / Math.Sqrt(12);

    /// <summary>Standard deviation of single samples about the mean [counts]; null when typed.</summary>
    public double? CountsScatter { get; init; }

    /// <summary>Samples behind the mean; null when typed.</summary>
    public int? Samples { get; init; }

    /// <summary>Mean reading of the sensor's supply [counts]; null where it wasn't read.</summary>
    public double? SupplyCounts { get; init; }
}
