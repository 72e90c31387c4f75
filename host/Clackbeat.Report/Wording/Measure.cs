using Clackbeat.Site.Quantities;
using Clackbeat.Words;

namespace Clackbeat.Report.Wording;

/// <summary>A quantity ready to be read, in metric and in US customary units; both texts are equal where the units are.</summary>
/// <param name="Metric">As metric readers expect it.</param>
/// <param name="Us">As US readers expect it.</param>
internal readonly record struct Measure(MeasureText Metric, MeasureText Us)
{
    /// <summary>A quantity that reads the same everywhere.</summary>
    public static Measure Same(string value, string margin = "", string unit = "")
    {
        var text = new MeasureText(value, margin, unit);
        return new Measure(text, text);
    }

    /// <summary>The same quantity as an upper bound.</summary>
    public Measure AsUpperBound(bool isOne) => new(Metric with { IsUpperBound = isOne }, Us with { IsUpperBound = isOne });

    /// <summary>Without zeros at the end of its decimals: 18 m and not 18.0 m, for what was chosen and not measured.</summary>
    public Measure Trimmed() => new(Metric.Trimmed(), Us.Trimmed());

    /// <summary>Both systems in one line, for paper; the reader's own comes first.</summary>
    public string In(Units first) => Metric == Us ? Metric.ToString() : first == Units.Us ? $"{Us} ({Metric})" : $"{Metric} ({Us})";

    /// <summary>The same for a metric reader.</summary>
    public override string ToString() => In(Units.Metric);
}

/// <summary>The parts of a quantity, apart, so that they can be set in different sizes.</summary>
/// <param name="Value">The number.</param>
/// <param name="Margin">Expanded uncertainty without its ±; empty where there is none.</param>
/// <param name="Unit">The unit; empty for a count.</param>
internal readonly record struct MeasureText(string Value, string Margin, string Unit)
{
    /// <summary>Stands before a figure that is an upper bound.</summary>
    public static string AtMost => Phrases.Say("report.at-most");

    /// <summary>True where it is one.</summary>
    public bool IsUpperBound { get; init; }

    /// <summary>Without zeros at the end of its decimals.</summary>
    public MeasureText Trimmed()
    {
        char point = Catalogue.Current.Language.DecimalSign;
        return Value.Contains(point, StringComparison.Ordinal) && Margin.Length == 0 ? this with { Value = Value.TrimEnd('0').TrimEnd(point) } : this;
    }

    // Non-breaking spaces keep a number, its ± and its unit on one line; "at most" may end the line before.
    public override string ToString()
    {
        string number = (IsUpperBound ? AtMost + " " : "") + (Margin.Length == 0 ? Value : $"{Value}\u00A0±\u00A0{Margin}");
        return Unit.Length == 0 ? number : $"{number}\u00A0{Unit}";
    }
}
