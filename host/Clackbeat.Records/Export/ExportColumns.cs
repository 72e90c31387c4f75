namespace Clackbeat.Records.Export;

/// <summary>Names of an export's columns.</summary>
public static class ExportColumns
{
    /// <summary>Time column.</summary>
    public const string Time = "t_s";

    /// <summary>Pressure column.</summary>
    public const string Pressure = "p_kPa";

    /// <summary>Calendar column.</summary>
    public const string Utc = "utc";

    /// <summary>Column of converter counts.</summary>
    public const string Counts = "counts";

    /// <summary>Column of the sensor's supply.</summary>
    public const string Supply = "supply_counts";

    /// <summary>Column of the delivery pressure.</summary>
    public const string Delivery = "delivery_counts";

    /// <summary>Column that marks gaps.</summary>
    public const string Gap = "gap_s";
}
