using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Clackbeat.Report.Pdf;

/// <summary>Sets a report as PDF with selectable text, plots drawn as lines, bookmarks and page numbers.</summary>
internal static class PdfReport
{
    public static void Write(Stream output, ReportContent content, DateTimeOffset made)
    {
        PdfFontResolver.Register();
        using var document = new PdfDocument();
        document.Info.Title = $"{PdfText.Printable(content.SiteName)}: {content.Kind.ToLowerInvariant()}";
        document.Info.Author = "Clackbeat";
        document.Info.CreationDate = made.UtcDateTime;
        document.Language = "en";
        using MemoryStream plots = new(PdfPictures.Of(Drawings(content)));
        using XPdfForm? pictures = Drawings(content).Count == 0 ? null : XPdfForm.FromStream(plots);
        using (var flow = new PdfFlow(document))
        {
            var setter = new PdfSetter(flow, document, pictures);
            setter.Head(content.Kind, PdfText.Printable(content.SiteName), PdfText.Printable(content.Source));
            setter.Verdict(content.Verdict);
            foreach (Section section in content.Sections)
            {
                setter.Section(section);
            }
        }

        NumberPages(document, PdfText.Printable(content.SiteName), content.Kind.ToLowerInvariant());
        document.Save(output, closeStream: false);
    }

    private static List<Drawing> Drawings(ReportContent content) =>
        [.. content.Sections.SelectMany(s => s.Blocks).OfType<PictureBlock>().Select(p => p.Drawing)];

    private static void NumberPages(PdfDocument document, string siteName, string kind)
    {
        string name = siteName.Length > 60 ? siteName[..60] + "…" : siteName;
        for (int i = 0; i < document.PageCount; i++)
        {
            using XGraphics canvas = XGraphics.FromPdfPage(document.Pages[i]);
            double y = document.Pages[i].Height.Point - 44;
            canvas.DrawString($"{name}: {kind}", PdfInk.Small, PdfInk.Muted, PdfFlow.Left, y);
            string number = $"Page {Digits.Count(i + 1)} of {Digits.Count(document.PageCount)}";
            canvas.DrawString(number, PdfInk.Small, PdfInk.Muted, PdfFlow.Left + PdfFlow.Width - canvas.MeasureString(number, PdfInk.Small).Width, y);
        }
    }
}
