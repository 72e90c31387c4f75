namespace Clackbeat.Report.Fonts;

/// <summary>The typeface that travels inside the program, so that text shows on a machine that has no fonts.</summary>
internal static class ReportFont
{
    /// <summary>Family name, as plots and pages ask for it.</summary>
    public const string Family = "Noto Sans";

    /// <summary>The whole face as TrueType: Latin, Greek, Cyrillic and more.</summary>
    public static byte[] TrueType(bool bold) => Resource(bold ? "NotoSans-Bold.ttf" : "NotoSans-Regular.ttf");

    /// <summary>The Latin part, packed for a web page; other scripts fall back to the reader's own fonts.</summary>
    public static byte[] WebLatin(bool bold) => Resource(bold ? "NotoSans-Bold.latin.woff2" : "NotoSans-Regular.latin.woff2");

    /// <summary>Text of an embedded file.</summary>
    public static string Text(string name) => System.Text.Encoding.UTF8.GetString(Resource(name));

    private static byte[] Resource(string name)
    {
        using Stream stream = typeof(ReportFont).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The resource {name} is missing from {typeof(ReportFont).Assembly.GetName().Name}.");
        using var buffer = new MemoryStream();
        stream.CopyTo(buffer);
        return buffer.ToArray();
    }
}
