using nietras.SeparatedValues;

namespace Clackbeat.Hydraulics;

/// <summary>The data files compiled into this assembly.</summary>
internal static class DataTable
{
    /// <summary>Reads a file row by row.</summary>
    internal static List<T> Read<T>(string file, SepReader.RowFunc<T> row)
    {
        using Stream stream = typeof(DataTable).Assembly.GetManifestResourceStream(file)
            ?? throw new InvalidOperationException($"The data file {file} is missing from the program.");
        using SepReader reader = Sep.New(',').Reader(o => o with { Unescape = true }).From(stream);
        return [.. reader.Enumerate(row)];
    }
}
