using System.Globalization;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Records.Tables;

/// <summary>A row that names columns, and those of them that can be meant. What it leaves open is asked for and never guessed.</summary>
/// <param name="cells">Its cells.</param>
/// <param name="times">Places of the columns that may hold the time.</param>
/// <param name="pressures">Places of the columns that may hold the pressure.</param>
internal sealed class TableHeader(string[] cells, int[] times, int[] pressures)
{
    private const string UsualTime = "t_s";
    private const string UsualPressure = "p_kPa";

    /// <summary>Place of the time column, as far as it is settled.</summary>
    public int Time => times[0];

    /// <summary>Place of the pressure column, as far as it is settled.</summary>
    public int Pressure => pressures[0];

    /// <summary>Whether both columns were named as the user or this program's own files name them, so that no row need prove it.</summary>
    public required bool IsSure { get; init; }

    /// <summary>A row below the header that holds units alone; null for none.</summary>
    public string[]? Units { get; set; }

    /// <summary>The columns that a row names; null when it names no time or no pressure.</summary>
    public static TableHeader? Find(string[] cells, TraceColumns asked)
    {
        if (cells.Length < 2)
        {
            return null;
        }

        HeaderCell[] heads = [.. cells.Select(HeaderCell.Read)];
        int[] times = Named(cells, asked.Time, UsualTime) ?? (asked.Time is null ? TimesAmong(heads) : []);
        int[] pressures = Named(cells, asked.Pressure, UsualPressure)
            ?? (asked.Pressure is null ? [.. Places(heads, h => h.MayBePressure).Except(times.Length == 1 ? times : [])] : []);
        times = pressures.Length == 1 ? [.. times.Except(pressures)] : times;
        bool sure = Named(cells, asked.Time, UsualTime) is not null && Named(cells, asked.Pressure, UsualPressure) is not null;
        return times.Length > 0 && pressures.Length > 0 ? new TableHeader(cells, times, pressures) { IsSure = sure } : null;
    }

    /// <summary>Settles which columns are read and in which units.</summary>
    /// <param name="asked">What the user asked for.</param>
    /// <param name="form">How times are written.</param>
    /// <param name="file">The file, for messages.</param>
    /// <param name="remarks">Takes what the user should know.</param>
    /// <exception cref="InputException">The header leaves open which column or which unit is meant.</exception>
    public (double TimeScale, double PressureScale, bool? IsAbsolute) Settle(TraceColumns asked, TimeForm form, string file, List<Fact> remarks)
    {
        RefuseSeveral(times, "--time", Fact.Of("table.the-time"), file);
        RefuseSeveral(pressures, "--pressure", Fact.Of("table.the-pressure"), file);
        var time = HeaderCell.Read(cells[Time]);
        var pressure = HeaderCell.Read(cells[Pressure]);
        string? timeUnit = time.TimeUnit ?? (Units is null ? null : HeaderCell.TimeUnitOf(Bare(Units[Time])));
        string? pressureUnit = pressure.PressureUnit ?? (Units is null ? null : HeaderCell.PressureUnitOf(Bare(Units[Pressure])));
        double timeScale = form == TimeForm.Number
            ? ColumnUnit.OfTime(asked.TimeUnit ?? timeUnit ?? throw UnitMissing(time.Text, "--time", ["s", "ms", "min"], file)).Scale
            : 1;
        double pressureScale = ColumnUnit.OfPressure(
            asked.PressureUnit ?? pressureUnit ?? throw UnitMissing(pressure.Text, "--pressure", ["kPa", "bar", "psi"], file)).Scale;
        if (form == TimeForm.Number)
        {
            Compare(timeUnit, timeScale, ColumnUnit.OfTime, time.Text, asked.TimeUnit, remarks);
        }

        Compare(pressureUnit, pressureScale, ColumnUnit.OfPressure, pressure.Text, asked.PressureUnit, remarks);
        return (timeScale, pressureScale, pressure.IsAbsolute);
    }

    /// <summary>By name; a whole number stands for a place, counted from 1.</summary>
    private static int[]? Named(string[] cells, string? asked, string usual)
    {
        string name = asked ?? usual;
        int found = Array.FindIndex(cells, c => c.Equals(name, StringComparison.OrdinalIgnoreCase));
        if (found < 0 && asked is not null && int.TryParse(asked, NumberStyles.None, CultureInfo.InvariantCulture, out int place)
            && place >= 1 && place <= cells.Length)
        {
            found = place - 1;
        }

        return found < 0 ? null : [found];
    }

    // A time that went by comes before a date, and a column so named before one that only has a unit of time, such as a gap's length.
    private static int[] TimesAmong(HeaderCell[] heads)
    {
        int[] named = Places(heads, h => h.IsNamedTime && h.PressureUnit is null);
        int[] elapsed = [.. named.Where(i => !heads[i].IsNamedCalendar)];
        return elapsed.Length > 0 ? elapsed : named.Length > 0 ? named : Places(heads, h => h.TimeUnit is not null);
    }

    private static int[] Places(HeaderCell[] heads, Func<HeaderCell, bool> isOne) =>
        [.. heads.Index().Where(h => isOne(h.Item)).Select(h => h.Index)];

    private static string Bare(string unit) => unit.Trim('[', ']', '(', ')', ' ');

    private static void Compare(
        string? inHeader, double taken, Func<string, ColumnUnit> read, string column, string? asked, List<Fact> remarks)
    {
        if (asked is not null && inHeader is not null && Math.Abs(Math.Abs(taken) - read(inHeader).Scale) > 1e-9 * Math.Abs(taken))
        {
            remarks.Add(Fact.Of("table.header-unit", ("column", column), ("unit", inHeader), ("asked", asked)));
        }
    }

    private void RefuseSeveral(int[] places, string option, Fact what, string file)
    {
        if (places.Length > 1)
        {
            string choices = string.Join(" or ", places.Select(p => $"{option} \"{cells[p]}\""));
            throw InputException.Of("table.several-columns", ("file", file), ("count", places.Length), ("what", what), ("choices", choices));
        }
    }

    private static InputException UnitMissing(string column, string option, string[] units, string file)
    {
        string choices = string.Join(", ", units[..^1].Select(u => $"{option} \"{column}:{u}\"")) + $" or {option} \"{column}:{units[^1]}\"";
        return InputException.Of("table.no-unit", ("file", file), ("column", column), ("choices", choices));
    }
}
