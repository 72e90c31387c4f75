using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Commands.Analyse;

/// <summary>A bucket test as it is typed: which outlet, how much water, how long it took.</summary>
internal static class BucketText
{
    public const string Example = "delivery 12 L in 60 s";

    /// <summary>Reads a bucket test.</summary>
    /// <param name="text">Such as <see cref="Example"/>.</param>
    /// <exception cref="InputException">It is none.</exception>
    public static BucketTest Parse(string text)
    {
        string[] words = text.Trim().Split((char[]?)null, 2, StringSplitOptions.RemoveEmptyEntries);
        string[] amounts = words.Length == 2 ? words[1].Split(" in ", 2, StringSplitOptions.TrimEntries) : [];
        if (amounts.Length != 2)
        {
            throw Wrong(text, Fact.Of("bucket.needs"));
        }

        BucketOutlet outlet = words[0].ToLowerInvariant() switch
        {
            "delivery" => BucketOutlet.Delivery,
            "waste" => BucketOutlet.Waste,
            _ => throw Wrong(text, Fact.Of("bucket.outlet", ("word", words[0]))),
        };
        if (!QuantityText.TryParse(QuantityKind.Volume, amounts[0], out double volumeM3, out Fact? problem)
            || !QuantityText.TryParse(QuantityKind.Duration, amounts[1], out double timeS, out problem))
        {
            throw Wrong(text, problem);
        }

        return volumeM3 > 0 && timeS > 0
            ? new BucketTest { Outlet = outlet, VolumeM3 = volumeM3, TimeS = timeS, OfThisRecord = true }
            : throw Wrong(text, Fact.Of("bucket.above-zero"));
    }

    private static InputException Wrong(string text, Fact why) =>
        InputException.Of("option.bucket", ("text", text), ("why", why), ("example", Example));
}
