using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Twin.Changes;

/// <summary>A new value, absolute or as a share of what it is.</summary>
/// <param name="Factor">The new value over the old; null for an absolute one.</param>
/// <param name="Absolute">The new value in SI; null for a relative one.</param>
public readonly record struct Setting(double? Factor, double? Absolute)
{
    // Beyond this the record says nothing of the ram any more, and the model little.
    private const double LeastFactor = 0.1;
    private const double MostFactor = 5;

    /// <summary>Reads "-25 %", "+10 %" or a quantity such as "24 m".</summary>
    /// <param name="option">Where it was written, for messages.</param>
    /// <param name="text">The text.</param>
    /// <param name="kind">What the quantity is.</param>
    /// <exception cref="InputException">It is neither.</exception>
    public static Setting Parse(string option, string text, QuantityKind kind)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!text.TrimEnd().EndsWith('%'))
        {
            return QuantityText.TryParse(kind, text, out double value, out Fact? problem) && value > 0
                ? new Setting(null, value)
                : throw (problem is null
                    ? InputException.Of("whatif.above-zero", ("option", option), ("text", text))
                    : InputException.Of("whatif.no-setting", ("option", option), ("why", problem)));
        }

        int sign = text.TrimStart() is { Length: > 0 } t && t[0] is '-' or '−' ? -1 : 1;
        string? number = text.Trim().TrimStart('+', '-', '−').Trim();
        if (!QuantityText.TryParse(QuantityKind.Share, number, out double share, out Fact? wrong))
        {
            throw InputException.Of("whatif.no-share", ("option", option), ("why", wrong));
        }

        double factor = 1 + (sign * share);
        return factor is >= LeastFactor and <= MostFactor
            ? new Setting(factor, null)
            : throw InputException.Of("whatif.too-far", ("option", option), ("text", text));
    }

    /// <summary>The new value over the old.</summary>
    /// <param name="option">Where it was written, for messages.</param>
    /// <param name="now">The value now, SI; null where the site file doesn't give it.</param>
    /// <param name="key">The key of the site file that would give it.</param>
    /// <exception cref="InputException">It is absolute and what it is now isn't known.</exception>
    public double Over(string option, double? now, string key) => Factor ?? (now is { } n
        ? Absolute!.Value / n
        : throw InputException.Of("whatif.now-unknown", ("option", option), ("key", key)));
}
