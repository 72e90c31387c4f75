using Clackbeat.Hydraulics;
using Clackbeat.Report.Wording;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Planned;

/// <summary>
/// What a plan says, its quantities in the reader's units. A value whose name ends with a unit is a quantity: the phrase has its bare place,
/// and number and unit are written here.
/// </summary>
public static class PlanWords
{
    private const double LitresPerGallon = 3.785411784;
    private const double Cm2PerIn2 = 6.4516;
    private const double SecondsPerMinute = 60;
    private const double LitresPerM3 = 1000;

    // The longest ending first: a velocity ends with the letters of a length.
    private static readonly (string Ending, Func<double, Measure?> Write)[] Endings =
    [
        ("friction_m", v => Show.Of(Kind.Length, v, 2)),
        ("depth_m", v => Show.Of(Kind.Length, v, 2)),
        ("_m_per_s", v => Show.Of(Kind.Speed, v, 2)),
        ("_l_per_min", v => Show.Of(Kind.Flow, v / LitresPerM3 / SecondsPerMinute, 2)),
        ("_l_per_day", Volume),
        ("_mm", v => Show.Of(Kind.Length, v / 1000)),
        ("_m3", Tank),
        ("_cm2", v => new Measure(Text(v, "cm²"), Text(v / Cm2PerIn2, "in²"))),
        ("_bar", v => Show.Of(Kind.Pressure, 1e5 * v)),
        ("_l", Volume),
        ("_m", v => Show.Of(Kind.Length, v)),
    ];

    /// <summary>A fact for a reader of one system of units, in the language that is spoken.</summary>
    /// <param name="fact">The fact.</param>
    /// <param name="units">The units.</param>
    public static string Say(Fact fact, Units units) => In(Of(fact), units);

    /// <summary>Some of them.</summary>
    /// <param name="facts">The facts.</param>
    /// <param name="units">The units.</param>
    public static IReadOnlyList<string> Say(IEnumerable<Fact> facts, Units units) => [.. facts.Select(f => Say(f, units))];

    /// <summary>A flow as water a day, both ends.</summary>
    public static string Daily(Band flowM3PerS, Units units) => In(PlanTables.Day(flowM3PerS), units);

    /// <summary>Whether water covers a need, in a word or two.</summary>
    public static string Enough(Band deliveredM3PerS, double neededM3PerS) => Catalogue.Current.Say(PlanTables.Enough(deliveredM3PerS, neededM3PerS));

    /// <summary>A day in words.</summary>
    public static string Day(DateOnly day) => Dates.Day(day);

    /// <summary>A fact with its quantities in both systems.</summary>
    internal static Rich Of(Fact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return Rich.Say(fact.Code, [.. fact.Values.Select(v => Value(v, fact))]);
    }

    /// <summary>Words for one system of units; blanks may break, as on a screen.</summary>
    internal static string In(Rich text, Units units) => string.Concat(text.Runs.Select(run =>
        run.Words ?? (units == Units.Us ? run.Quantity!.Value.Us : run.Quantity!.Value.Metric).ToString())).Replace('\u00A0', ' ');

    /// <summary>A volume of litres to two digits: a plan knows no more.</summary>
    internal static Measure? Volume(double litres) => new Measure(Text(litres, "L"), Text(litres / LitresPerGallon, "gal"));

    /// <summary>A storage tank [m³].</summary>
    internal static Measure? Tank(double m3) => new Measure(Text(m3, "m³"), Text(LitresPerM3 * m3 / LitresPerGallon, "gal"));

    /// <summary>A size of pipe as it is spoken and never parted: 1¼ in for the tables' 1-1/4 in.</summary>
    internal static string Size(string size) => size
        .Replace("1/4", "¼", StringComparison.Ordinal).Replace("1/2", "½", StringComparison.Ordinal).Replace("3/4", "¾", StringComparison.Ordinal)
        .Replace("-", "", StringComparison.Ordinal).Replace(' ', '\u00A0');

    /// <summary>Two digits, whole digits written out with parted thousands.</summary>
    internal static string TwoDigits(double value)
    {
        if (value <= 0)
        {
            return "0";
        }

        int places = 1 - (int)Math.Floor(Math.Log10(value));
        double step = Math.Pow(10, -places);
        double rounded = Math.Round(value / step) * step;
        return rounded.ToString(places > 0 ? "#,0." + new string('#', places) : "#,0", Catalogue.Current.Language.Numbers);
    }

    private static MeasureText Text(double value, string unit) => new(TwoDigits(value), "", unit);

    private static RichValue Value(FactValue value, Fact fact)
    {
        if (value.Name == "size")
        {
            return (value.Name, Size(value.Word!));
        }

        if (Quantity(value) is not { } quantity)
        {
            return new RichValue(value.Name, value, null);
        }

        // "880 to 1400 gal": the unit stands once, behind the upper end.
        string upper = value.Name.Replace("low_", "high_", StringComparison.Ordinal);
        bool isLower = upper != value.Name && fact.Values.FirstOrDefault(v => v.Name == upper) is { } high && Quantity(high) is { } other
            && other.Metric.Unit == quantity.Metric.Unit && other.Us.Unit == quantity.Us.Unit;
        return new RichValue(
            value.Name, null, isLower ? new Measure(quantity.Metric with { Unit = "" }, quantity.Us with { Unit = "" }) : quantity);
    }

    private static Measure? Quantity(FactValue value) =>
        value.Number is { } number && Array.Find(Endings, e => value.Name.EndsWith(e.Ending, StringComparison.Ordinal)) is { Write: { } write }
            ? write(number)?.Trimmed()
            : null;
}
