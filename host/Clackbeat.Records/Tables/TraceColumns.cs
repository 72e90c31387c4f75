using Clackbeat.Site;

namespace Clackbeat.Records.Tables;

/// <summary>Which columns of a table hold time and pressure, and in which units; what is left open, the table's header says.</summary>
/// <param name="Time">Name of the time column, or its number from 1; null for the one that the header names as such.</param>
/// <param name="TimeUnit">Unit of time; null takes the header's.</param>
/// <param name="Pressure">Name of the pressure column, or its number from 1; null for the one that the header names as such.</param>
/// <param name="PressureUnit">Unit of pressure; null takes the header's.</param>
public sealed record TraceColumns(string? Time, string? TimeUnit, string? Pressure, string? PressureUnit)
{
    /// <summary>As the header says: <c>t_s</c> and <c>p_kPa</c> where they are there.</summary>
    public static TraceColumns Default { get; } = new(null, null, null, null);

    /// <summary>Reads the options <c>--time COLUMN[:UNIT]</c> and <c>--pressure COLUMN[:UNIT]</c>; null leaves it to the header.</summary>
    public static TraceColumns Parse(string? time, string? pressure)
    {
        (string? timeName, string? timeUnit) = Split(time, "--time");
        (string? pressureName, string? pressureUnit) = Split(pressure, "--pressure");
        return new TraceColumns(timeName, timeUnit, pressureName, pressureUnit);
    }

    private static (string? Name, string? Unit) Split(string? text, string option)
    {
        if (text is null)
        {
            return (null, null);
        }

        int colon = text.LastIndexOf(':');
        (string name, string? unit) = colon < 0 ? (text, null) : (text[..colon].Trim(), text[(colon + 1)..].Trim());
        return name.Length > 0
            ? (name, unit)
            : throw InputException.Of("table.column-name", ("option", option));
    }
}
