using System.Globalization;
using System.Text;
using Clackbeat.Season.Packets;
using Clackbeat.Season.Store;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;
using Clackbeat.Unattended.Settings;

namespace Clackbeat.Fuzz;

/// <summary>
/// Inputs to begin with: the golden vectors of the wire, the golden recording, tables as loggers and spreadsheets write
/// them, the templates of the files that people write, a small file of each other kind; and the inputs that once broke something, kept in Found.
/// </summary>
internal static class Seeds
{
    private static readonly string Here = AppContext.BaseDirectory;

    /// <summary>The inputs of a target, the found ones last.</summary>
    public static IReadOnlyList<byte[]> Of(Target target) => [.. Fresh(target.Name), .. Found(target.Name)];

    /// <summary>Inputs that once broke a target.</summary>
    public static IEnumerable<byte[]> Found(string target)
    {
        string folder = Path.Combine(Here, "Found", target);
        return Directory.Exists(folder) ? Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal).Select(File.ReadAllBytes) : [];
    }

    private static IEnumerable<byte[]> Fresh(string target) => target switch
    {
        "frames" => Frames(),
        "recording" => Recordings(),
        "csv" => Tables().SelectMany(t => new byte[] { 0, 1, 2, 3 }.Select(naming => (byte[])[naming, .. Encoding.UTF8.GetBytes(t)])),
        "site" => Sites().Select(Encoding.UTF8.GetBytes),
        "sheet" => Sheets().SelectMany(s => new[] { s, ZipTarget.Whole(s, isSheet: true) }),
        "share" => SharedRecords().SelectMany(s => new[] { s, ZipTarget.Whole(s, isSheet: false) }),
        "packet" => Packets().SelectMany(p => new byte[][] { [0, .. p], [1, .. p] }),
        "settings" => [[0, .. Uncommented(LogFile.Template)], [1, .. Uncommented(IntakeFile.Template)]],
        "wish" => [[0, .. Encoding.UTF8.GetBytes(Wish)], [1, .. Encoding.UTF8.GetBytes(Wish)]],
        "session" => [Encoding.UTF8.GetBytes(Session)],
        "twin" => [Encoding.UTF8.GetBytes(TwinTarget.Seed())],
        _ => [],
    };

    // The last line of each vector is the whole frame.
    private static List<byte[]> Frames()
    {
        List<byte[]> frames = [.. File.ReadLines(Path.Combine(Here, "Seeds", "version-1.txt"))
            .Where(line => line.StartsWith('='))
            .Select(line => Convert.FromHexString(line[1..].Replace(" ", "", StringComparison.Ordinal)))];
        return [.. frames.Select(f => (byte[])[0, .. f]), .. frames.Select(f => (byte[])[1, .. f]), [1, .. frames.SelectMany(f => f)]];
    }

    private static IEnumerable<byte[]> Recordings()
    {
        byte[] golden = File.ReadAllBytes(Path.Combine(Here, "Seeds", "golden.cbrec"));
        yield return [0, .. golden];
        yield return [1, .. golden];
        yield return [1, .. golden, .. golden];
        yield return [0, .. golden.AsSpan(0, golden.Length * 2 / 3)];
    }

    private static IEnumerable<string> Tables()
    {
        yield return Table("t_s,p_kPa", ",", ".", "\n");
        yield return Table("t_s\tp_kPa", "\t", ".", "\r\n");
        yield return Table("t_s;p_kPa", ";", ",", "\n");
        yield return $"# a remark\n\uFEFF\"logger\",7\n\n{Table("\"n\",\"t_s\",\"p_kPa\"", ",", ".", "\n")}";
        yield return Table("time_ms,level [bar]", ",", ".", "\n") + "0.5,nan\n0.2,1e308\n0.2,7\n-5,8\n";
    }

    private static string Table(string header, string separator, string mark, string end) => header + end + string.Concat(
        Enumerable.Range(0, 30).Select(i => string
            .Create(CultureInfo.InvariantCulture, $"{i / 1000.0:0.000}|{100 + (50 * Math.Sin(i)):0.00}|{i}")
            .Replace(".", mark, StringComparison.Ordinal)
            .Replace("|", separator, StringComparison.Ordinal) + end));

    private static IEnumerable<string> Sites()
    {
        yield return SiteTemplate.Text(Units.Metric);
        yield return SiteTemplate.Text(Units.Us);

        // Every key of the template and none of its remarks: short, so that changes hit keys.
        yield return Encoding.UTF8.GetString(Uncommented(SiteTemplate.Text(Units.Metric)));
        yield return Sections;
        yield return "site = { name = \"A\", units = \"us\" }\nsupply.head = \"8 ft 6 in\"\n[[fitting]]\nname = 'x'\n";
    }

    // The remarks that are keys or tables, without their mark.
    private static byte[] Uncommented(string template) => Encoding.UTF8.GetBytes(string.Join('\n', template.Split('\n')
        .Select(line => line.StartsWith("# ", StringComparison.Ordinal) && (line.Contains(" = ", StringComparison.Ordinal) || line[2] == '[') ? line[2..] : line)
        .Where(line => line.Length > 0 && line[0] != '#')));

    private const string Sections = """
        site.name = "A"
        supply.head = "3 m"
        delivery.head = "20 m"
        sensor.range = "0 bar to 10 bar"
        [[drive_pipe.section]]
        material = "PE100"
        length = "9.9 m"
        bore = "53.6 mm"
        wall = "4.7 mm"
        wave_speed = "300 m/s"
        [[drive_pipe.section]]
        material = "galvanised steel"
        length = "6 m"
        size = "DN 50"
        class = "Schedule 40"
        """;

    private const string Wish = """
        supply-head	3 m
        supply-flow	60 L/min
        lift	25 m
        dry-flow	30 L/min
        supply-months	60, 60, 55, 50, 45, 35, 25, 20, 30, 45, 60, 60 L/min
        ram-kind	cast
        drive-length-possible	8 m to 30 m
        delivery-length	120 m
        drive-material	PVC-U
        water-temperature	12 °C
        need	3000 L/day
        need-months	0, 0, 0, 500, 900, 1500, 1800, 1500, 900, 0, 0, 0 L/day
        use	person = 24
        use	cow = 3
        irrigate	400 = 0, 0, 1, 2, 4, 5, 5, 4, 3, 1, 0, 0
        shortfall	2 %
        sun-hours	4.5
        price	drive-pipe = 12
        price	ram = 300
        """;

    private const string Session = """
        {"schema": "clackbeat.tuning/1", "session": {"ram": "mill", "knob": {"name": "stroke", "unit": "mm", "lowest": 4, "highest": 12, "step": 1},
        "aim": "most-delivered", "enough_m3_per_s": 1e-5, "now": 8, "units": "metric", "trials": [
        {"setting": 8, "works": true, "delivered_m3_per_s": {"value": 5e-5, "u": 1e-6}, "efficiency": {"value": 0.6, "u": 0.02}, "peak_pa": {"value": 3e5, "u": 1e3},
        "print": {"intervals_ms": [1000.1, 1000.2], "peaks_kpa": [300.1, 300.2]}, "verdict": "well-within", "allowable_pa": 1e6, "lack": "none",
        "stretches": [{"delivered_m3_per_s": 5e-5, "efficiency": 0.6, "peak_pa": 3e5}, {"delivered_m3_per_s": 5.1e-5, "efficiency": 0.61, "peak_pa": 3.1e5}],
        "has_twin": true, "twin": {"points": [{"setting": 4, "twin": {"delivered": 0.1, "efficiency": 0.1, "peak": 0.1}, "others": []}, {"setting": 12, "twin": null, "others": []}]}},
        {"setting": 10, "works": true, "delivered_m3_per_s": {"value": 6e-5, "u": 1e-6}, "efficiency": {"value": 0.5, "u": 0.02}, "peak_pa": {"value": 4e5, "u": 1e3}, "verdict": "unknown"},
        {"setting": 12, "works": false, "lack": "stopped-open", "verdict": "unknown"}]}}
        """;

    private static IEnumerable<byte[]> Packets()
    {
        yield return """
            {"schema":"clackbeat.packet/1","bursts":[{"ram":"mill","hash":"00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff","source":"mill/1.cbrec",
            "start":"2026-05-01T09:00:00Z","start_uncertainty_s":2,"duration_s":60,"state":"beating","completeness":"complete",
            "figures":{"rate":{"value":1.1,"u":0.01},"peak":{"value":3e5},"delivered":{"value":1e-5,"u":1e-6,"bound":"upper"}},"conditions":{"healthy":0.9},"beats":""}],
            "marks":[{"ram":"mill","at":"2026-05-01T08:00:00Z","words":"new rubber"}]}
            """u8.ToArray();
        yield return """{"packet":"ab","stored":3,"known":1,"refused":"no","is_final":true}"""u8.ToArray();
        IEnumerable<SeasonBeat> beats = Enumerable.Range(0, 6).Select(i => new SeasonBeat(1 + i, 1.01, 3e5, 2e5, -1e3, i % 2 == 0 ? new Signal.Beats.BeatFlow(1.2, 1e-4, 2e-4) : null));
        var burst = new SeasonBurst
        {
            Ram = "mill",
            SourceHash = new byte[32],
            Source = "mill/2.cbrec",
            StartUtc = new DateTimeOffset(2026, 5, 1, 9, 0, 0, TimeSpan.Zero),
            DurationS = 60,
            State = Signal.States.RamState.Beating,
            Figures = new Dictionary<SeasonFigure, SeasonValue>(),
            Beats = [.. beats],
        };
        using var gzip = new System.IO.Compression.GZipStream(
            new MemoryStream(PacketWriter.Write(new BurstPacket([burst], []))), System.IO.Compression.CompressionMode.Decompress);
        using var plain = new MemoryStream();
        gzip.CopyTo(plain);
        yield return plain.ToArray();
    }

    private static IEnumerable<byte[]> SharedRecords()
    {
        string record = Table("t_s,p_kPa", ",", ".", "\n");
        yield return ZipTarget.Parts(
            """
            {"format":"clackbeat-shared-record","version":1,"program":"x","licence":"CC0","place_left_out":true,"started_utc":"2026-05-01T09:00:00.000Z",
            "record":{"file":"record.csv","bytes":#1,"sha256":"@1"},"site":{"file":"site.toml","bytes":#2,"sha256":"@2"},"calibration":null,
            "bucket_tests":[{"outlet":"delivery","volume":"5 L","time":"30 s"}],"lacks":["a gap"]}
            """,
            record, Sections);
        yield return ZipTarget.Parts(
            """
            {"format":"clackbeat-shared-record","version":1,"program":"","place_left_out":false,
            "record":{"bytes":#1,"sha256":"@1"},"site":{"bytes":#2,"sha256":"@2"},"calibration":{"bytes":#3,"sha256":"@3"}}
            """,
            record, Sections, "gain = 1.0\n");
    }

    private static IEnumerable<byte[]> Sheets()
    {
        const string Book = """<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><workbookPr date1904="0"/><sheets><sheet name="a" sheetId="1" r:id="rId1"/></sheets></workbook>""";
        const string Links = """<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings" Target="sharedStrings.xml"/><Relationship Id="rId3" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/></Relationships>""";
        const string Words = """<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="2" uniqueCount="2"><si><t>t_s</t></si><si><r><t>p_kPa</t></r></si></sst>""";
        const string Styles = """<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\-mm\-dd\ hh:mm:ss.000"/></numFmts><cellXfs count="3"><xf numFmtId="0"/><xf numFmtId="164" applyNumberFormat="1"/><xf numFmtId="46"/></cellXfs></styleSheet>""";
        static string Sheet(string style) => """<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dimension ref="A1:B9"/><cols><col min="1" max="2" width="9"/></cols><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>"""
            + string.Concat(Enumerable.Range(2, 8).Select(i => $"<row r=\"{i}\"><c r=\"A{i}\"{style}><v>{45000 + i}.25</v></c><c r=\"B{i}\"><f>A1</f><v>{100 + i}.5</v></c></row>"))
            + """<row r="10"><c r="A10" t="inlineStr"><is><t>x</t></is></c><c r="B10" t="e"><v>#N/A</v></c><c r="C10" t="b"><v>1</v></c></row></sheetData><mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells></worksheet>""";
        yield return ZipTarget.Parts(Book, Links, Sheet(""), Words, Styles);
        yield return ZipTarget.Parts(Book, Links, Sheet(" s=\"1\""), Words, Styles);
        yield return ZipTarget.Parts(Book, Links, Sheet(" s=\"2\""), Words);
    }
}
