namespace Clackbeat.Site.Tests.Files;

/// <summary>Site files to bend and break. Line numbers are counted from the first line of each.</summary>
internal static class SiteTexts
{
    /// <summary>The least a site file may have, laid out so that each line can be replaced by its number.</summary>
    public static readonly string[] Least =
    [
        "[site]",                            // 1
        "name = \"Mill Lane ram\"",          // 2
        "[supply]",                          // 3
        "head = \"2.5 m\"",                  // 4
        "[drive_pipe]",                      // 5
        "material = \"galvanised steel\"",   // 6
        "length = \"15 m\"",                 // 7
        "bore = \"52.5 mm\"",                // 8
        "[delivery]",                        // 9
        "head = \"20 m\"",                   // 10
        "[sensor]",                          // 11
        "range = \"0 kPa to 1000 kPa\"",     // 12
    ];

    public static string With(int line, string text)
    {
        string[]? lines = (string[])Least.Clone();
        lines[line - 1] = text;
        return string.Join('\n', lines);
    }

    /// <summary>The least file with lines put behind a line.</summary>
    public static string After(int line, params string[] more) =>
        string.Join('\n', [.. Least.Take(line), .. more, .. Least.Skip(line)]);
}
