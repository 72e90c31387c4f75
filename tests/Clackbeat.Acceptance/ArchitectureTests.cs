using System.Reflection;
using System.Xml.Linq;

namespace Clackbeat.Acceptance;

/// <summary>Who may know whom. The folder list read in order is the way of the data; knowledge runs against it only.</summary>
public class ArchitectureTests
{
    private const string Program = "Clackbeat";

    // These two may know everything but the program; the page says so in words.
    private static readonly string[] KnowAll = [Program, "Clackbeat.Watch"];

    // Each assembly and the ones it may know at most, as the contributors' page says: the page is what is enforced.
    private static readonly Dictionary<string, string[]> MayKnow = ReadPage();

    public static TheoryData<string> Projects => [.. ProjectFiles().Select(Path.GetFileNameWithoutExtension).Select(n => n!)];

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_refers_only_to_those_it_may_know(string project)
    {
        IEnumerable<string> references = XDocument.Load(ProjectFiles().Single(f => Path.GetFileNameWithoutExtension(f) == project))
            .Descendants("ProjectReference")
            .Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value.Replace('\\', '/')));
        AssertAllowed(project, references);
    }

    [Fact]
    public void A_built_assembly_refers_only_to_those_it_may_know()
    {
        foreach (string file in Directory.EnumerateFiles(AppContext.BaseDirectory, "Clackbeat*.dll").Where(f => !f.Contains("Acceptance", StringComparison.Ordinal)))
        {
            IEnumerable<string> references = Assembly.LoadFrom(file).GetReferencedAssemblies()
                .Select(a => a.Name!)
                .Where(n => n.StartsWith("Clackbeat", StringComparison.Ordinal));
            AssertAllowed(Path.GetFileNameWithoutExtension(file), references);
        }
    }

    [Fact]
    public void The_page_has_no_circle()
    {
        static bool Reaches(string from, string to) => MayKnow[from].Any(next => next == to || Reaches(next, to));
        Assert.All(MayKnow.Keys, name => Assert.False(Reaches(name, name), name));
    }

    [Fact]
    public void The_page_names_every_project_and_no_other() => Assert.Equal(
        ProjectFiles().Select(Path.GetFileNameWithoutExtension).Except(KnowAll).Order(StringComparer.Ordinal),
        MayKnow.Keys.Order(StringComparer.Ordinal));

    // Rows such as: | `host/Clackbeat.Signal` | trace → beats → figures | Records, Site |
    private static Dictionary<string, string[]> ReadPage() => File.ReadLines(Path.Combine(Repository.Root, "DEVELOPERS.md"))
        .Where(line => line.StartsWith("| `", StringComparison.Ordinal))
        .Select(line => line.Trim('|', ' ').Split('|', StringSplitOptions.TrimEntries))
        .Select(cells => (Folder: cells[0].Split('`')[1].TrimEnd('/'), Known: cells[^1]))
        .Select(row => (Name: row.Folder == "shared-protocol" ? "Clackbeat.Protocol" : Path.GetFileName(row.Folder), row.Known))
        .Where(row => row.Name.StartsWith("Clackbeat", StringComparison.Ordinal) && !KnowAll.Contains(row.Name))
        .ToDictionary(
            row => row.Name,
            row => row.Known == "nobody" ? [] : row.Known.Split(", ").Select(name => "Clackbeat." + name).ToArray(),
            StringComparer.Ordinal);

    private static void AssertAllowed(string project, IEnumerable<string> references)
    {
        if (KnowAll.Contains(project))
        {
            Assert.DoesNotContain(Program, references);
            return;
        }

        Assert.True(MayKnow.TryGetValue(project, out string[]? allowed), $"{project} is new: say whom it may know in the table of DEVELOPERS.md.");
        Assert.All(references, name => Assert.True(allowed.Contains(name), $"{project} may not know {name}."));
    }

    private static IEnumerable<string> ProjectFiles() => new[] { "host", "firmware", "shared-protocol" }
        .Select(folder => Path.Combine(Repository.Root, folder))
        .Where(Directory.Exists)
        .SelectMany(folder => Directory.EnumerateFiles(folder, "Clackbeat*.csproj", SearchOption.AllDirectories));
}
