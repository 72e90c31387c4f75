using System.Globalization;
using System.Text;
using Clackbeat.Site.Files;
using Clackbeat.Site.Quantities;

namespace Clackbeat.Fuzz;

/// <summary>
/// Inputs to begin with: the golden vectors of the wire, the golden recording, tables as loggers and spreadsheets write
/// them, the site file's template; and the inputs that once broke something, kept in Found.
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
        yield return string.Join('\n', SiteTemplate.Text(Units.Metric).Split('\n')
            .Select(line => line.StartsWith("# ", StringComparison.Ordinal) && line.Contains(" = ", StringComparison.Ordinal) ? line[2..] : line)
            .Where(line => line.Length > 0 && line[0] != '#'));
        yield return "site = { name = \"A\", units = \"us\" }\nsupply.head = \"8 ft 6 in\"\n[[fitting]]\nname = 'x'\n";
    }
}
