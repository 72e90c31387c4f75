using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Quantities;

/// <summary>A quantity, or the two ends of a range, as a sentence is to show it: the reader's language writes it.</summary>
/// <param name="Kind">What it is; it tells the SI unit of the values.</param>
/// <param name="Value">The value in SI, or the lower end.</param>
/// <param name="Units">The reader's units.</param>
/// <param name="Digits">Significant digits, see <see cref="QuantityFormat.Parts(QuantityKind, double, Units, int)"/>.</param>
/// <param name="High">The upper end of a range in SI; null for a single value.</param>
public sealed record Quantity(QuantityKind Kind, double Value, Units Units, int Digits = 3, double? High = null) : IShown;
