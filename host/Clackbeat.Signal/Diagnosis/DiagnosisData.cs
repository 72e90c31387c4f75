using nietras.SeparatedValues;
using Tomlyn;
using Tomlyn.Model;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>The data files of the diagnosis, compiled into this assembly.</summary>
internal static class DiagnosisData
{
    /// <summary>The tables of a TOML file by their names.</summary>
    public static IReadOnlyDictionary<string, TomlTable> Tables(string file)
    {
        using var reader = new StreamReader(Open(file));
        TomlTable root = TomlSerializer.Deserialize<TomlTable>(reader.ReadToEnd())
            ?? throw new InvalidOperationException($"The data file {file} is empty.");
        return root.ToDictionary(t => t.Key, t => (TomlTable)t.Value, StringComparer.Ordinal);
    }

    /// <summary>The rows of a CSV file.</summary>
    public static List<T> Rows<T>(string file, SepReader.RowFunc<T> row)
    {
        using Stream stream = Open(file);
        using SepReader reader = Sep.New(',').Reader().From(stream);
        return [.. reader.Enumerate(row)];
    }

    private static Stream Open(string file) => typeof(DiagnosisData).Assembly.GetManifestResourceStream(file)
        ?? throw new InvalidOperationException($"The data file {file} is missing from the program.");
}
