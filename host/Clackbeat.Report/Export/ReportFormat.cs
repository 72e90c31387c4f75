using Clackbeat.Site;

namespace Clackbeat.Report.Export;

/// <summary>How a report is set.</summary>
public enum ReportFormat
{
    /// <summary>One self-contained HTML file.</summary>
    Html,

    /// <summary>PDF, A4; US Letter where units are US customary.</summary>
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
        _ => throw InputException.Of("input.report-ending", ("file", Path.GetFileName(path))),
    };
}
