using Clackbeat.Report.Export;
using Clackbeat.Site;

namespace Clackbeat.Report.Tests;

public sealed class ReportFormatSpecs
{
    [Theory]
    [InlineData("a.html", ReportFormat.Html)]
    [InlineData("b.HTM", ReportFormat.Html)]
    [InlineData("dir.x/c.Pdf", ReportFormat.Pdf)]
    public void The_ending_chooses_the_format(string path, ReportFormat format) => Assert.Equal(format, ReportFormats.FromPath(path));

    [Fact]
    public void Any_other_ending_is_refused_with_the_remedy()
    {
        InputException error = Assert.Throws<InputException>(() => ReportFormats.FromPath("report.docx"));
        Assert.Contains(".html", error.Message, StringComparison.Ordinal);
    }
}
