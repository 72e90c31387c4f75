namespace Clackbeat.Recording.Export;

/// <summary>Which columns an export has beside time, pressure and gap.</summary>
/// <param name="Utc">Calendar.</param>
/// <param name="Counts">Converter counts.</param>
/// <param name="Supply">Counts of the sensor's supply.</param>
/// <param name="Delivery">Counts of the delivery pressure.</param>
public sealed record ExportColumns(bool Utc, bool Counts, bool Supply, bool Delivery)
{
    /// <summary>Time column.</summary>
    public const string Time = "t_s";

    /// <summary>Pressure column.</summary>
    public const string Pressure = "p_kPa";

    /// <summary>Calendar column.</summary>
    public const string UtcName = "utc";

    /// <summary>Column of converter counts.</summary>
    public const string CountsName = "counts";

    /// <summary>Column of the sensor's supply.</summary>
    public const string SupplyName = "supply_counts";

    /// <summary>Column of the delivery pressure.</summary>
    public const string DeliveryName = "delivery_counts";

    /// <summary>Column that marks gaps.</summary>
    public const string Gap = "gap_s";
}
