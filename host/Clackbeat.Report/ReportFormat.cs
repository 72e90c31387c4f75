using Clackbeat.Site;

namespace Clackbeat.Report;

/// <summary>How a report is set.</summary>
public enum ReportFormat
{
    /// <summary>One self-contained HTML file.</summary>
    Html,

    /// <summary>PDF, A4, that also prints on US Letter.</summary>
    Pdf,
}

/// <summary>Chooses a format by a file's ending.</summary>
public static class ReportFormats
{
    /// <summary>The format that a path asks for.</summary>
    /// <exception cref="InputException">The ending is neither .html, .htm nor .pdf.</exception>
    public static ReportFormat FromPath(string path) => Path.GetExtension(path).ToUpperInvariant() switch
    {
        ".HTML" or ".HTM" => ReportFormat.Html,
        ".PDF" => ReportFormat.Pdf,
        _ => throw new InputException($"A report can be written as .html or .pdf, but not as \"{Path.GetFileName(path)}\". Give the file one of these endings."),
    };
}
