namespace Clackbeat.Site.Quantities;

/// <summary>A quantity ready to be written, its parts apart, so that nobody has to find them in a text again.</summary>
/// <param name="Value">The number, rounded.</param>
/// <param name="Uncertainty">Its expanded uncertainty without its ±; empty where none is given.</param>
/// <param name="Unit">The unit.</param>
public readonly record struct QuantityParts(string Value, string Uncertainty, string Unit)
{
    /// <summary>The number with its uncertainty, without the unit, such as "2.45 ± 0.03".</summary>
    public string Number => Uncertainty.Length == 0 ? Value : $"{Value} ± {Uncertainty}";

    /// <summary>All in one, such as "2.45 ± 0.03 bar".</summary>
    public override string ToString() => $"{Number} {Unit}";
}
