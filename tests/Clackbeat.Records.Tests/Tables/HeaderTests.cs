using System.IO.Compression;
using System.Text;
using Clackbeat.Records.Tables;
using Clackbeat.Site;
using Clackbeat.Words;

namespace Clackbeat.Records.Tests.Tables;

/// <summary>What a header says is taken, and what it leaves open is asked for.</summary>
public sealed class HeaderTests : IDisposable
{
    private readonly string _path = Path.GetTempFileName();

    // Each row is 1.5 s and 200 kPa after the first; 1 psi = 6.894757293168 kPa and 1 cm of water = 98.0665 Pa (NIST SP 811, appendix B).
    [Theory]
    [InlineData("time_ms,Pressure [bar]", "0,0", "1500,2")]
    [InlineData("Zeit (s);Druck [mbar]", "0,0;0,0", "1,5;2000,0")]
    [InlineData("elapsed_min\tp_psi", "0\t0", "0.025\t29.00754754604")]
    [InlineData("day_fraction,level_cm", "0,0", "1.736111111111e-5,2039.432426")]
    [InlineData("t / s,p / kPa", "0,0", "1.5,200")]
    [InlineData("Time,Channel p\n(ms),(bar)", "0,0", "1500,2")]
    [InlineData("\"Time, s\",\"Pressure, bar\"", "\"0\",\"0\"", "\"1.5\",\"2\"")]
    [InlineData("timestamp,p_kPa", "2026-05-01T23:59:59Z,0", "2026-05-02T00:00:00.5Z,200")]
    [InlineData("time;p_bar", "23:59:59,0;0,0", "00:00:00,5;2,0")]
    [InlineData("n,t_s,p_kPa,utc,gap_s", "1,0,0,2026-05-01T09:00:00Z,", "2,1.5,200,2026-05-01T09:00:01.5Z,")]
    public void Units_and_times_are_read_as_they_stand(string header, string first, string second)
    {
        (double[] timesS, double[] pressuresPa, TraceFile trace) = Read($"{header}\n{first}\n{second}\n", TraceColumns.Default);
        using TraceFile open = trace;
        Assert.Equal(1.5, timesS[1] - timesS[0], 1e-9);
        Assert.Equal(200_000, pressuresPa[1] - pressuresPa[0], 0.01);
        Assert.Empty(open.Remarks);
    }

    [Theory]
    [InlineData("time_s,p1_bar,p2_bar", "--pressure \"p1_bar\" or --pressure \"p2_bar\"")]
    [InlineData("time_s,pressure", "--pressure \"pressure:kPa\", --pressure \"pressure:bar\" or --pressure \"pressure:psi\"")]
    [InlineData("time,p_bar", "--time \"time:s\", --time \"time:ms\" or --time \"time:min\"")]
    [InlineData("time_s,p_mpa", "the unit of column 'p_mpa'")]
    public void What_the_header_leaves_open_is_asked_for(string header, string question) => Assert.Contains(
        question,
        Assert.Throws<InputException>(() => Read($"{header}\n0,1,1\n1,2,2\n", TraceColumns.Default)).Message,
        StringComparison.Ordinal);

    [Fact]
    public void A_unit_that_is_asked_for_wins_and_the_contradiction_is_told()
    {
        (_, double[] pressuresPa, TraceFile trace) = Read("t_s,p_bar\n0,1\n", TraceColumns.Parse(null, "p_bar:psi"));
        using TraceFile open = trace;
        Assert.Equal(6894.757293168, pressuresPa[0], 1e-6);
        Assert.Contains("names the unit bar", Catalogue.English.Say(Assert.Single(open.Remarks)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("p_psia", true)]
    [InlineData("p [bar abs]", true)]
    [InlineData("Pressure (kPa(a))", true)]
    [InlineData("p_psig", false)]
    [InlineData("p_bar", null)]
    public void A_header_may_say_whether_pressures_count_from_vacuum(string pressure, bool? absolute)
    {
        (_, _, TraceFile trace) = Read($"t_s,{pressure}\n0,1\n", TraceColumns.Default);
        using TraceFile open = trace;
        Assert.Equal(absolute, open.IsAbsolute);
    }

    [Fact]
    public void A_spreadsheet_is_read_like_the_table_it_shows()
    {
        (double[] timesS, double[] pressuresPa, TraceFile trace) = Read(Workbook(["time_ms", "Pressure [bar]"], [0, 1], [1.5, 2]), TraceColumns.Default);
        using TraceFile open = trace;
        Assert.Equal([0, 0.0015], timesS);
        Assert.Equal([1e5, 2e5], pressuresPa);
    }

    /// <summary>A format of numbers without its code: the library takes it for granted and fails on nothing (found by fuzzing).</summary>
    [Fact]
    public void A_spreadsheet_that_the_library_trips_over_is_refused_in_words()
    {
        byte[] book = Workbook(["time_ms", "Pressure [bar]"], [0, 1], [1.5, 2]);
        using var bytes = new MemoryStream();
        bytes.Write(book);
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Update, leaveOpen: true))
        {
            using var styles = new StreamWriter(zip.CreateEntry("xl/styles.xml").Open());
            styles.Write("<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><numFmts><numFmt numFmtId=\"164\"/></numFmts></styleSheet>");
        }

        Assert.Equal("table.spreadsheet-broken", Assert.Throws<InputException>(() => Read(bytes.ToArray(), TraceColumns.Default)).What.Code);
    }

    [Theory]
    [InlineData("%PDF-1.7\n", "a PDF document")]
    [InlineData("{\"a\": 1}", "a JSON file")]
    [InlineData("[site]\nname = \"x\"\n", "a site file")]
    [InlineData("PAR1\0\0", "a Parquet file")]
    public void Another_kind_of_file_is_refused_by_its_name(string content, string kind) => Assert.Contains(
        kind, Assert.Throws<InputException>(() => Read(content, TraceColumns.Default)).Message, StringComparison.Ordinal);

    public void Dispose() => File.Delete(_path);

    private (double[] TimesS, double[] PressuresPa, TraceFile Trace) Read(string content, TraceColumns columns) =>
        Read(Encoding.UTF8.GetBytes(content), columns);

    private (double[] TimesS, double[] PressuresPa, TraceFile Trace) Read(byte[] content, TraceColumns columns)
    {
        File.WriteAllBytes(_path, content);
        var trace = TraceFile.Open(_path, columns);
        double[] timesS = new double[10];
        double[] pressuresPa = new double[10];
        int count = trace.Read(timesS, pressuresPa);
        return (timesS[..count], pressuresPa[..count], trace);
    }

    // The least that ECMA-376 asks of a workbook: one sheet, texts within its cells.
    private static byte[] Workbook(string[] names, params double[][] rows)
    {
        using var bytes = new MemoryStream();
        using (var zip = new ZipArchive(bytes, ZipArchiveMode.Create, leaveOpen: true))
        {
            void Add(string name, string xml)
            {
                using var writer = new StreamWriter(zip.CreateEntry(name).Open());
                writer.Write("<?xml version=\"1.0\" encoding=\"UTF-8\"?>" + xml);
            }

            const string Office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
            const string Sheet = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
            const string Package = "http://schemas.openxmlformats.org/package/2006/relationships";
            Add("[Content_Types].xml", "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/><Override PartName=\"/xl/worksheets/sheet1.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml\"/></Types>");
            Add("_rels/.rels", $"<Relationships xmlns=\"{Package}\"><Relationship Id=\"r1\" Type=\"{Office}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>");
            Add("xl/workbook.xml", $"<workbook xmlns=\"{Sheet}\" xmlns:r=\"{Office}\"><sheets><sheet name=\"S\" sheetId=\"1\" r:id=\"r1\"/></sheets></workbook>");
            Add("xl/_rels/workbook.xml.rels", $"<Relationships xmlns=\"{Package}\"><Relationship Id=\"r1\" Type=\"{Office}/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>");
            string head = string.Concat(names.Select(n => $"<c t=\"inlineStr\"><is><t>{n}</t></is></c>"));
            string body = string.Concat(rows.Select(r => "<row>" + string.Concat(r.Select(v => FormattableString.Invariant($"<c><v>{v}</v></c>"))) + "</row>"));
            Add("xl/worksheets/sheet1.xml", $"<worksheet xmlns=\"{Sheet}\"><sheetData><row>{head}</row>{body}</sheetData></worksheet>");
        }

        return bytes.ToArray();
    }
}
