using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Clackbeat.Report.Pdf;

/// <summary>
/// A column of text that flows from page to page. Pages are A4; the margins keep everything inside US Letter too, whose
/// sheet is shorter, when the page is printed centred at its true size. Lengths in points.
/// </summary>
internal sealed class PdfFlow : IDisposable
{
    private const double Side = 54;
    private const double Top = 58;
    private const double Bottom = 66;
    private readonly PdfDocument document;
    private XGraphics? canvas;

    public PdfFlow(PdfDocument document)
    {
        this.document = document;
        NewPage();
    }

    public XGraphics Canvas => canvas!;

    public PdfPage Page { get; private set; } = null!;

    public double Y { get; set; }

    public static double Left => Side;

    public static double Width => XUnit.FromMillimeter(210).Point - (2 * Side);

    private static double Height => XUnit.FromMillimeter(297).Point;

    public double Room => Height - Bottom - Y;

    /// <summary>Starts a page.</summary>
    public void NewPage()
    {
        canvas?.Dispose();
        Page = document.AddPage();
        Page.Size = PageSize.A4;
        canvas = XGraphics.FromPdfPage(Page);
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
        foreach (string word in PdfText.Printable(words).Split(' ', StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Fitting(w, font, width)))
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

    public void Dispose() => canvas?.Dispose();

    private void WriteLine(string line, XFont font, XBrush brush, double x)
    {
        Canvas.DrawString(line, font, brush, x, Y + Ascent(font));
        Y += LineHeight(font);
    }

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
