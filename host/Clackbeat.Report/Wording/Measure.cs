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

    /// <summary>Both systems in one line, for paper.</summary>
    public override string ToString() => Metric == Us ? Metric.ToString() : $"{Metric} ({Us})";
}

/// <summary>The parts of a quantity, apart, so that they can be set in different sizes.</summary>
/// <param name="Value">The number.</param>
/// <param name="Margin">Expanded uncertainty without its ±; empty where there is none.</param>
/// <param name="Unit">The unit; empty for a count.</param>
internal readonly record struct MeasureText(string Value, string Margin, string Unit)
{
    // Non-breaking spaces keep a number and its unit on one line.
    public override string ToString()
    {
        string number = Margin.Length == 0 ? Value : $"{Value}\u00A0±\u00A0{Margin}";
        return Unit.Length == 0 ? number : $"{number}\u00A0{Unit}";
    }
}
