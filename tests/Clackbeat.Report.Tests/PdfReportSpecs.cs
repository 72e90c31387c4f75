using Clackbeat.Signal.Analysis;
using PdfSharp.Pdf;
using PdfSharp.Pdf.IO;

namespace Clackbeat.Report.Tests;

public sealed class PdfReportSpecs
{
    public static TheoryData<string> Cases => [.. Reports.Cases.Keys];

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_file_opens_and_its_pages_are_A4(string name)
    {
        using PdfDocument document = Open(Reports.Write(ReportFormat.Pdf, Reports.Cases[name]));
        Assert.InRange(document.PageCount, 3, 12);
        Assert.Equal(210, document.Pages[0].Width.Millimeter, 0);
        Assert.Equal(297, document.Pages[0].Height.Millimeter, 0);
        Assert.Equal("Alder Spring ram: ram report", document.Info.Title);
    }

    [Fact]
    public void A_name_without_end_and_one_without_shapes_do_no_harm()
    {
        using PdfDocument document = Open(Reports.Write(ReportFormat.Pdf, MadeUpRam.Analysis(), site: MadeUpRam.Site(new string('W', 3000) + "\u0007\uD83D\uDCA7")));
        Assert.InRange(document.PageCount, 3, 20);
    }

    [Fact]
    public void A_comparison_of_an_hour_stays_small()
    {
        byte[] pdf = Reports.Write(ReportFormat.Pdf, MadeUpRam.Analysis(beats: 2850, gap: new Gap(1400, 300)), MadeUpRam.Analysis());
        Assert.True(pdf.Length < 1_500_000, $"{pdf.Length} bytes");
    }

    private static PdfDocument Open(byte[] pdf) => PdfReader.Open(new MemoryStream(pdf), PdfDocumentOpenMode.Import);
}
