using System.Reflection;
using System.Xml.Linq;

namespace Clackbeat.Acceptance;

/// <summary>Who may know whom. The folder list read in order is the way of the data; knowledge runs against it only.</summary>
public class ArchitectureTests
{
    private const string Program = "Clackbeat";

    // Each assembly and the ones it may know at most.
    private static readonly Dictionary<string, string[]> MayKnow = new(StringComparer.Ordinal)
    {
        ["Clackbeat.Protocol"] = [],
        ["Clackbeat.Logger"] = ["Clackbeat.Protocol"],
        ["Clackbeat.Logger.Esp32"] = ["Clackbeat.Logger", "Clackbeat.Protocol"],
        ["Clackbeat.Hydraulics"] = [],
        ["Clackbeat.Sensing"] = ["Clackbeat.Hydraulics"],
        ["Clackbeat.Site"] = ["Clackbeat.Sensing", "Clackbeat.Hydraulics"],
        ["Clackbeat.VirtualRam"] = ["Clackbeat.Site", "Clackbeat.Hydraulics"],
        ["Clackbeat.VirtualLogger"] =
        [
            "Clackbeat.Logger", "Clackbeat.Protocol", "Clackbeat.VirtualRam", "Clackbeat.Site", "Clackbeat.Sensing",
            "Clackbeat.Hydraulics",
        ],
        ["Clackbeat.Signal"] = ["Clackbeat.Site", "Clackbeat.Sensing", "Clackbeat.Hydraulics"],
        ["Clackbeat.Recording"] =
            ["Clackbeat.Protocol", "Clackbeat.Site", "Clackbeat.Sensing", "Clackbeat.Signal", "Clackbeat.Hydraulics"],
        ["Clackbeat.Season"] = ["Clackbeat.Signal", "Clackbeat.Site", "Clackbeat.Hydraulics"],
        ["Clackbeat.Unattended"] =
        [
            "Clackbeat.Season", "Clackbeat.Recording", "Clackbeat.Protocol", "Clackbeat.Signal", "Clackbeat.Site", "Clackbeat.Sensing",
            "Clackbeat.Hydraulics",
        ],
        ["Clackbeat.VirtualSeason"] =
            ["Clackbeat.Season", "Clackbeat.VirtualRam", "Clackbeat.Signal", "Clackbeat.Site", "Clackbeat.Hydraulics"],
        ["Clackbeat.Tuning"] = ["Clackbeat.Signal", "Clackbeat.Site", "Clackbeat.Hydraulics"],
        ["Clackbeat.Report"] = ["Clackbeat.Tuning", "Clackbeat.Signal", "Clackbeat.Site", "Clackbeat.Hydraulics"],
    };

    // These two may know everything but the program.
    private static readonly string[] KnowAll = [Program, "Clackbeat.Watch"];

    public static TheoryData<string> Projects => [.. ProjectFiles().Select(Path.GetFileNameWithoutExtension).Select(n => n!)];

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_refers_only_to_those_it_may_know(string project)
    {
        var references = XDocument.Load(ProjectFiles().Single(f => Path.GetFileNameWithoutExtension(f) == project))
            .Descendants("ProjectReference")
            .Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value.Replace('\\', '/')));
        AssertAllowed(project, references);
    }

    [Fact]
    public void A_built_assembly_refers_only_to_those_it_may_know()
    {
        foreach (var file in Directory.EnumerateFiles(AppContext.BaseDirectory, "Clackbeat*.dll").Where(f => !f.Contains("Acceptance", StringComparison.Ordinal)))
        {
            var references = Assembly.LoadFrom(file).GetReferencedAssemblies()
                .Select(a => a.Name!)
                .Where(n => n.StartsWith("Clackbeat", StringComparison.Ordinal));
            AssertAllowed(Path.GetFileNameWithoutExtension(file), references);
        }
    }

    [Fact]
    public void The_list_above_has_no_circle()
    {
        static bool Reaches(string from, string to) => MayKnow[from].Any(next => next == to || Reaches(next, to));
        Assert.All(MayKnow.Keys, name => Assert.False(Reaches(name, name), name));
    }

    private static void AssertAllowed(string project, IEnumerable<string> references)
    {
        if (KnowAll.Contains(project))
        {
            Assert.DoesNotContain(Program, references);
            return;
        }

        Assert.True(MayKnow.TryGetValue(project, out var allowed), $"{project} is new: say above whom it may know.");
        Assert.All(references, name => Assert.True(allowed.Contains(name), $"{project} may not know {name}."));
    }

    private static IEnumerable<string> ProjectFiles() => new[] { "host", "firmware", "shared-protocol" }
        .Select(folder => Path.Combine(Repository.Root, folder))
        .Where(Directory.Exists)
        .SelectMany(folder => Directory.EnumerateFiles(folder, "Clackbeat*.csproj", SearchOption.AllDirectories));
}
