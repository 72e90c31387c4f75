using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Data;

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
        foreach (var (known, names) in Spellings)
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

    internal static string Unknown(string text)
    {
        if (text.Contains("PE", StringComparison.OrdinalIgnoreCase) && text.Contains("HD", StringComparison.OrdinalIgnoreCase))
        {
            return $"\"{text}\" names several grades with different strength; read PE100, PE80 or PE4710 off the pipe.";
        }

        var hint = Spelling.Nearest(text, Spellings.Values.SelectMany(s => s)) is { } near ? $" Did you mean \"{near}\"?" : "";
        return $"\"{text}\" is no material known here.{hint} Known: {string.Join(", ", Shown)}.";
    }
}
