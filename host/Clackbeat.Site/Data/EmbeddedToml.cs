using Tomlyn;
using Tomlyn.Model;

namespace Clackbeat.Site.Data;

/// <summary>Reads the data tables that ship inside this assembly.</summary>
internal static class EmbeddedToml
{
    /// <summary>A table by its file name.</summary>
    public static TomlTable Read(string name)
    {
        using Stream stream = typeof(EmbeddedToml).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The data table {name} is missing from the program.");
        using var reader = new StreamReader(stream);
        return TomlSerializer.Deserialize<TomlTable>(reader.ReadToEnd())
            ?? throw new InvalidOperationException($"The data table {name} is empty.");
    }

    /// <summary>A list of texts.</summary>
    public static IReadOnlyList<string> Texts(object list) => [.. ((TomlArray)list).Cast<string>()];
}
