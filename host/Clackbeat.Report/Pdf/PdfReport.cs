using Clackbeat.Report.Content;
using Clackbeat.Report.Plots;
using Clackbeat.Report.Wording;
using Clackbeat.Words;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Clackbeat.Report.Pdf;

/// <summary>Sets a report as PDF with selectable text, plots drawn as lines, bookmarks and page numbers.</summary>
internal static class PdfReport
{
    private static readonly double[] PictureHeights = [0.9, 0.75, 0.6, 0.5, 0.4];

    /// <summary>Writes the file.</summary>
    /// <param name="output">Where it goes; stays open.</param>
    /// <param name="content">The report.</param>
    /// <param name="made">When it was made.</param>
    /// <returns>Pages that the report's first page takes: 1 as long as nobody's words are too long for it; 0 without one.</returns>
    public static int Write(Stream output, ReportContent content, DateTimeOffset made)
    {
        PdfFontResolver.Register();
        content = Fitted(content);
        using var document = new PdfDocument();
        document.Info.Title = $"{PdfText.Printable(content.SiteName)}: {content.Kind.ToLowerInvariant()}";
        document.Info.Author = "Clackbeat";
        document.Info.CreationDate = made.UtcDateTime;
        document.Language = Catalogue.Current.Language.Code;
        using MemoryStream plots = new(PdfPictures.Of(Drawings(content)));
        using XPdfForm? pictures = Drawings(content).Count == 0 ? null : XPdfForm.FromStream(plots);
        int first = 0;
        using (var flow = new PdfFlow(document, content.Units))
        {
            var setter = new PdfSetter(flow, document, pictures);
            Begin(setter, content);
            if (content.FirstPage.Count > 0)
            {
                first = document.PageCount;
                setter.BeginAnnex(content);
            }

            foreach (Section section in content.Sections)
            {
                setter.Section(section);
            }

            setter.FillContents();
        }

        NumberPages(document, PdfText.Printable(content.SiteName), content.Kind.ToLowerInvariant());
        document.Save(output, closeStream: false);
        return first;
    }

    private static void Begin(PdfSetter setter, ReportContent content)
    {
        setter.Head(content.Kind, PdfText.Printable(content.SiteName), PdfText.Printable(content.Source));
        setter.Verdict(content.FirstPage.Count == 0 ? content.Verdict : content.Verdict with { Sentences = [] });
        foreach (Section section in content.FirstPage)
        {
            setter.Section(section);
        }
    }

    // The picture of the first page takes the room that the words leave, as far as it can still be read.
    private static ReportContent Fitted(ReportContent content)
    {
        foreach (double height in PictureHeights)
        {
            ReportContent tried = content with { FirstPage = [.. content.FirstPage.Select(s => s with { Blocks = [.. s.Blocks.Select(b => Lower(b, height))] })] };
            using var document = new PdfDocument();
            using (var flow = new PdfFlow(document, content.Units))
            {
                Begin(new PdfSetter(flow, document, null), tried);
            }

            if (document.PageCount == 1)
            {
                return tried;
            }
        }

        // Long words of a keeper's own may leave no room at all; the words come first.
        return content with { FirstPage = [.. content.FirstPage.Where(s => s.Blocks[0] is not PictureBlock)] };
    }

    private static Block Lower(Block block, double height) =>
        block is PictureBlock p ? new PictureBlock(p.Drawing with { PaperHeight = height, Caption = Rich.Empty }) : block;

    private static List<Drawing> Drawings(ReportContent content) =>
        [.. content.FirstPage.Concat(content.Sections).SelectMany(s => s.Blocks).OfType<PictureBlock>().Select(p => p.Drawing)];

    private static void NumberPages(PdfDocument document, string siteName, string kind)
    {
        string name = siteName.Length > 60 ? siteName[..60] + "…" : siteName;
        for (int i = 0; i < document.PageCount; i++)
        {
            using var canvas = XGraphics.FromPdfPage(document.Pages[i]);
            double y = document.Pages[i].Height.Point - 44;
            canvas.DrawString($"{name}: {kind}", PdfInk.Small, PdfInk.Muted, PdfFlow.Left, y);
            string number = Phrases.Say("report.page", ("i", Digits.Count(i + 1)), ("page_count", Digits.Count(document.PageCount)));
            canvas.DrawString(number, PdfInk.Small, PdfInk.Muted, PdfFlow.Left + PdfFlow.Width - canvas.MeasureString(number, PdfInk.Small).Width, y);
        }
    }
}
