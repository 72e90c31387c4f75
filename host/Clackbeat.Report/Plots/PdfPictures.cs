using ScottPlot;
using SkiaSharp;

namespace Clackbeat.Report.Plots;

/// <summary>Draws plots as the pages of one PDF, lines as lines and text as text, to be placed on the report's own pages.</summary>
internal static class PdfPictures
{
    /// <summary>A document with one page a drawing, in their order.</summary>
    public static byte[] Of(IReadOnlyList<Drawing> drawings)
    {
        using var buffer = new MemoryStream();
        using (var document = SKDocument.CreatePdf(buffer))
        {
            foreach (Drawing drawing in drawings)
            {
                Frame size = drawing.In(Frame.Paper);
                using Plot plot = drawing.Make(size);
                using SKCanvas canvas = document.BeginPage(size.Width, size.Height);
                plot.Render(canvas, new PixelRect(0, size.Width, size.Height, 0));
                document.EndPage();
            }

            document.Close();
        }

        return buffer.ToArray();
    }
}
