using Clackbeat.Report.Content;
using Clackbeat.Report.Export;
using Clackbeat.Report.Pdf;
using Clackbeat.Report.Wording;
using Clackbeat.Signal.Figures;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Words;
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

    [Theory]
    [MemberData(nameof(Cases))]
    public void The_first_page_is_one_page_on_either_paper_and_in_every_language(string name)
    {
        RamSite site = MadeUpRam.Site("Alder Spring ram") with { Place = "Below the alder spring, lower pasture", Keeper = "The water committee" };
        foreach (Catalogue language in Catalogue.All)
        {
            using IDisposable spoken = Catalogue.Use(language);
            foreach (Units units in new[] { Units.Metric, Units.Us })
            {
                ReportContent content = new Composer(site with { Units = units }, Reports.Cases[name], null, Reports.Made).Make();
                Assert.Equal(1, PdfReport.Write(Stream.Null, content, Reports.Made));
            }
        }
    }

    [Fact]
    public void A_site_in_US_units_is_set_on_US_Letter()
    {
        // Letter is 8.5 in × 11 in (ANSI/ASME Y14.1).
        using PdfDocument document = Open(Reports.Write(ReportFormat.Pdf, MadeUpRam.Analysis(), site: MadeUpRam.Site("Alder Spring ram") with { Units = Units.Us }));
        Assert.Equal(8.5, document.Pages[0].Width.Inch, 0.01);
        Assert.Equal(11, document.Pages[0].Height.Inch, 0.01);
        Assert.InRange(document.PageCount, 3, 12);
    }

    [Fact]
    public void On_paper_the_readers_own_units_come_first()
    {
        // 1 bar is 14.5038 psi (NIST SP 811, appendix B).
        var said = Rich.Of($"The peak is {Show.Of(Kind.Pressure, 245_166.0)!.Value}.");
        Assert.Equal("The peak is 2.45\u00A0bar (35.6\u00A0psi).", said.In(Units.Metric));
        Assert.Equal("The peak is 35.6\u00A0psi (2.45\u00A0bar).", said.In(Units.Us));
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
