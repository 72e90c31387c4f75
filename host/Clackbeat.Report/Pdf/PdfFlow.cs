using Clackbeat.Site.Quantities;
using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Clackbeat.Report.Pdf;

/// <summary>
/// A column of text that flows from page to page: A4, or US Letter for a site in US units. The column is as wide on both; Letter
/// is 6 mm wider and 18 mm shorter. Lengths in points.
/// </summary>
internal sealed class PdfFlow : IDisposable
{
    private const double Side = 54;
    private const double Top = 58;
    private const double Bottom = 66;
    private readonly PdfDocument _document;
    private readonly PageSize _paper;
    private XGraphics? _canvas;

    public PdfFlow(PdfDocument document, Units units)
    {
        _document = document;
        Units = units;
        _paper = units == Units.Us ? PageSize.Letter : PageSize.A4;
        NewPage();
    }

    /// <summary>Units that come first.</summary>
    public Units Units { get; }

    public XGraphics Canvas => _canvas!;

    public PdfPage Page { get; private set; } = null!;

    public double Y { get; set; }

    public static double Left => Side;

    public static double Width => XUnit.FromMillimeter(210).Point - (2 * Side);

    private double Height => Page.Height.Point;

    public double Room => Height - Bottom - Y;

    /// <summary>Starts a page.</summary>
    public void NewPage()
    {
        _canvas?.Dispose();
        Page = _document.AddPage();
        Page.Size = _paper;
        _canvas = XGraphics.FromPdfPage(Page);
        Y = Top;
    }

    /// <summary>Starts a page when so much height is not left on this one.</summary>
    public void Need(double height)
    {
        if (Room < height && Y > Top)
        {
            NewPage();
        }
    }

    /// <summary>Space between blocks, none at the head of a page.</summary>
    public void Skip(double height)
    {
        if (Y > Top)
        {
            Y += height;
        }
    }

    /// <summary>Words in a column, flowing on to the next page line by line.</summary>
    public void Write(string words, XFont font, XBrush brush, double indent = 0, double? width = null)
    {
        foreach (string line in Wrap(words, font, (width ?? Width) - indent))
        {
            Need(LineHeight(font));
            WriteLine(line, font, brush, Left + indent);
        }
    }

    /// <summary>Lines at a fixed place that must not be parted.</summary>
    public double WriteAt(IReadOnlyList<string> lines, XFont font, XBrush brush, double x, double y, double? rightEdge = null)
    {
        foreach (string line in lines)
        {
            double at = rightEdge is { } edge ? edge - Canvas.MeasureString(line, font).Width : x;
            Canvas.DrawString(line, font, brush, at, y + Ascent(font));
            y += LineHeight(font);
        }

        return y;
    }

    /// <summary>Breaks words into lines no wider than a width.</summary>
    public List<string> Wrap(string words, XFont font, double width)
    {
        var lines = new List<string>();
        string line = "";
        foreach (string word in PdfText.Printable(words).Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Loosened(w, font, width)).SelectMany(w => Fitting(w, font, width)))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && Canvas.MeasureString(longer, font).Width > width)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        if (line.Length > 0)
        {
            lines.Add(line);
        }

        return lines;
    }

    public static double LineHeight(XFont font) => font.Size * 1.42;

    public static double Ascent(XFont font) => font.Size * 1.1;

    /// <summary>Ends writing; pages may be drawn on by others from here on.</summary>
    public void Close()
    {
        _canvas?.Dispose();
        _canvas = null;
    }

    public void Dispose() => Close();

    private void WriteLine(string line, XFont font, XBrush brush, double x)
    {
        Canvas.DrawString(line, font, brush, x, Y + Ascent(font));
        Y += LineHeight(font);
    }

    // A figure keeps its parts on one line where it can; in a narrow column it parts between them, not within them.
    private string[] Loosened(string word, XFont font, double width) =>
        word.Contains('\u00A0', StringComparison.Ordinal) && Canvas.MeasureString(word, font).Width > width
            ? word.Split('\u00A0', StringSplitOptions.RemoveEmptyEntries)
            : [word];

    // A file name or a hostile site name may be one endless word.
    private IEnumerable<string> Fitting(string word, XFont font, double width)
    {
        while (word.Length > 1 && Canvas.MeasureString(word, font).Width > width)
        {
            int length = word.Length;
            while (length > 1 && Canvas.MeasureString(word[..length], font).Width > width)
            {
                length = Math.Max(1, Math.Min(length - 1, (int)(length * width / Canvas.MeasureString(word[..length], font).Width)));
            }

            length = char.IsHighSurrogate(word[length - 1]) && length > 1 ? length - 1 : length;
            yield return word[..length];
            word = word[length..];
        }

        yield return word;
    }
}
