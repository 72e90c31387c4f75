using System.Text.RegularExpressions;

namespace Clackbeat.Hydraulics.Tests;

/// <summary>The rooms (namespaces) of the hydraulics stand in an order: none knows a room that knows it.</summary>
public partial class RoomTests
{
    // Friction takes a SeriesPipe, and WaveSpeed takes a material: these two part when the pipes in a row move to Pipes.
    private static readonly string[] StillTied = ["Pipes", "Transients"];

    [Fact]
    public void No_room_knows_itself_by_way_of_another()
    {
        Dictionary<string, HashSet<string>> known = Rooms();
        Assert.Contains("Rating", known.Keys);
        Assert.Contains("Fatigue", known["Rating"]);
        Assert.DoesNotContain("Rating", known["Fatigue"]);
        Assert.All(known.Keys.Except(StillTied), room => Assert.DoesNotContain(room, Reached(known, room)));
    }

    private static HashSet<string> Reached(Dictionary<string, HashSet<string>> known, string from)
    {
        var reached = new HashSet<string>();
        var open = new Queue<string>(known[from]);
        while (open.TryDequeue(out string? next))
        {
            if (reached.Add(next))
            {
                known.GetValueOrDefault(next, []).ToList().ForEach(open.Enqueue);
            }
        }

        return reached;
    }

    // What a file knows: its usings, and names written with their room before them.
    private static Dictionary<string, HashSet<string>> Rooms()
    {
        string? folder = Path.Combine(Root(AppContext.BaseDirectory), "host", "Clackbeat.Hydraulics");
        var files = Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal))
            .Select(f => Comment().Replace(File.ReadAllText(f), ""))
            .Select(code => (Room: Place().Match(code).Groups[1].Value, Code: code))
            .Where(f => f.Room.Length > 0)
            .ToList();
        var rooms = files.Select(f => f.Room).ToHashSet();
        return files.GroupBy(f => f.Room).ToDictionary(
            g => g.Key,
            g => g.SelectMany(f => Name().Matches(f.Code).Select(m => m.Groups[1].Value))
                .Where(name => rooms.Contains(name) && name != g.Key).ToHashSet());
    }

    private static string Root(string folder) =>
        File.Exists(Path.Combine(folder, "Clackbeat.slnx")) ? folder : Root(Path.GetDirectoryName(folder)!);

    [GeneratedRegex(@"^namespace Clackbeat\.Hydraulics\.(\w+);", RegexOptions.Multiline)]
    private static partial Regex Place();

    [GeneratedRegex(@"(?:using Clackbeat\.Hydraulics\.|(?<![\w.])(?:Hydraulics\.)?)(\w+)(?:;|\.[A-Z])")]
    private static partial Regex Name();

    [GeneratedRegex(@"//.*$", RegexOptions.Multiline)]
    private static partial Regex Comment();
}
