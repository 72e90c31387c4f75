using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Data;
using Clackbeat.Site.Facts;

namespace Clackbeat.Site.Files;

/// <summary>Pipe materials as the site file writes them.</summary>
public static class MaterialNames
{
    private static readonly Dictionary<PipeMaterial, IReadOnlyList<string>> Spellings = EmbeddedToml
        .Read("material-names.toml")
        .ToDictionary(row => Enum.Parse<PipeMaterial>(row.Key), row => EmbeddedToml.Texts(row.Value));

    /// <summary>The name shown.</summary>
    public static string Of(PipeMaterial material) => Spellings[material][0];

    /// <summary>Every name that may be shown, in the order of the data file.</summary>
    public static IEnumerable<string> Shown => Spellings.Values.Select(s => s[0]);

    /// <summary>The material of a name, letter case aside.</summary>
    /// <param name="text">The name.</param>
    /// <param name="material">The material; <see cref="PipeMaterial.Other"/> when there is none of that name.</param>
    public static bool TryParse(string text, out PipeMaterial material)
    {
        foreach ((PipeMaterial known, IReadOnlyList<string> names) in Spellings)
        {
            if (names.Contains(text.Trim(), StringComparer.OrdinalIgnoreCase))
            {
                material = known;
                return true;
            }
        }

        material = PipeMaterial.Other;
        return false;
    }

    internal static Fact Unknown(string text)
    {
        if (text.Contains("PE", StringComparison.OrdinalIgnoreCase) && text.Contains("HD", StringComparison.OrdinalIgnoreCase))
        {
            return Fact.Of("site.material-grades", ("text", text));
        }

        string known = string.Join(", ", Shown);
        return Spelling.Nearest(text, Spellings.Values.SelectMany(s => s)) is { } near
            ? Fact.Of("site.material-near", ("text", text), ("near", near), ("known", known))
            : Fact.Of("site.material-unknown-word", ("text", text), ("known", known));
    }
}
