using Clackbeat.Site;

namespace Clackbeat.Signal.Traces;

/// <summary>Which columns of a table hold time and pressure, and in which units.</summary>
/// <param name="Time">Name of the time column, or its number from 1.</param>
/// <param name="TimeUnit">Unit of time; null takes the one that ends the column's name.</param>
/// <param name="Pressure">Name of the pressure column, or its number from 1.</param>
/// <param name="PressureUnit">Unit of gauge pressure; null takes the one that ends the column's name.</param>
public sealed record TraceColumns(string Time, string? TimeUnit, string Pressure, string? PressureUnit)
{
    /// <summary>Columns <c>t_s</c> and <c>p_kPa</c>.</summary>
    public static TraceColumns Default { get; } = new("t_s", "s", "p_kPa", "kPa");

    /// <summary>Reads the options <c>--time COLUMN[:UNIT]</c> and <c>--pressure COLUMN[:UNIT]</c>; null leaves the default.</summary>
    public static TraceColumns Parse(string? time, string? pressure)
    {
        TraceColumns columns = Default;
        if (time is not null)
        {
            (string name, string? unit) = Split(time, "--time");
            columns = columns with { Time = name, TimeUnit = unit };
        }

        if (pressure is not null)
        {
            (string name, string? unit) = Split(pressure, "--pressure");
            columns = columns with { Pressure = name, PressureUnit = unit };
        }

        return columns;
    }

    /// <summary>The unit of the time column.</summary>
    public ColumnUnit ResolveTime() => ColumnUnit.OfTime(
        TimeUnit ?? ColumnUnit.InName(Time, time: true) ?? throw UnitMissing(Time, "--time", "s"));

    /// <summary>The unit of the pressure column.</summary>
    public ColumnUnit ResolvePressure() => ColumnUnit.OfPressure(
        PressureUnit ?? ColumnUnit.InName(Pressure, time: false) ?? throw UnitMissing(Pressure, "--pressure", "kPa"));

    private static (string Name, string? Unit) Split(string text, string option)
    {
        int colon = text.LastIndexOf(':');
        (string name, string? unit) = colon < 0 ? (text, null) : (text[..colon].Trim(), text[(colon + 1)..].Trim());
        return name.Length > 0
            ? (name, unit)
            : throw new InputException($"{option} needs the name of a column, as in {option} NAME:UNIT.");
    }

    private static InputException UnitMissing(string column, string option, string example) => new(
        $"The unit of column '{column}' can't be read off its name. Add it: {option} \"{column}:{example}\".");
}
