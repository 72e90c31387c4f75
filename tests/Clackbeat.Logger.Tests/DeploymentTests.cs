using System.Xml.Linq;

namespace Clackbeat.Logger.Tests;

/// <summary>What the runtime's IDE deploys is what is built and searched here.</summary>
public class DeploymentTests
{
    private static readonly string Root = FindRoot(AppContext.BaseDirectory);
    private static readonly string Deploy = Path.Combine(Root, "firmware", "Deploy");

    [Fact]
    public void TheDeployedProgramHasTheSourcesOfTheThreeProjects()
    {
        IEnumerable<string> built = new[] { "firmware/Clackbeat.Logger.Esp32", "firmware/Clackbeat.Logger", "shared-protocol/Clackbeat.Protocol" }
            .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Root, folder), "*.cs", SearchOption.AllDirectories))
            .Where(f => !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("\\obj\\", StringComparison.Ordinal))
            .Append(Path.Combine(Root, "shared-protocol", "NetNanoAssembly.cs"))
            .Select(Path.GetFullPath);
        IEnumerable<string> deployed = Items("Compile").Select(i => Path.GetFullPath(Path.Combine(Deploy, Include(i).Replace('\\', '/'))));
        Assert.Equal(built.Order(StringComparer.Ordinal), deployed.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void BothProjectsTakeTheSameVersionsOfTheDevicePackages()
    {
        var props = XDocument.Load(Path.Combine(Root, "firmware/Clackbeat.Logger.Esp32/DevicePackages.props"));
        var core = XDocument.Load(Path.Combine(Root, "shared-protocol/NetNano.props"));
        IEnumerable<(string?, string?)> sdk = props.Descendants("DevicePackage")
            .Select(p => (p.Attribute("Include")?.Value, p.Attribute("Version")?.Value.Trim('[', ']')))
            .Append(("nanoFramework.CoreLibrary", core.Descendants("NanoCoreLibraryVersion").Single().Value));
        IEnumerable<(string?, string?)> ide = XDocument.Load(Path.Combine(Deploy, "packages.config")).Descendants("package")
            .Select(p => (p.Attribute("id")?.Value, p.Attribute("version")?.Value));
        Assert.Equal(sdk.Order(), ide.Order());
        Assert.All(ide, p => Assert.Contains(
            Items("Reference"), r => r.Value.Trim().StartsWith($"packages\\{p.Item1}.{p.Item2}\\lib\\", StringComparison.Ordinal)));
    }

    private static IEnumerable<XElement> Items(string kind) =>
        XDocument.Load(Path.Combine(Deploy, "Clackbeat.Logger.Esp32.nfproj")).Descendants().Where(e => e.Name.LocalName == kind);

    private static string Include(XElement item) => item.Attribute("Include")!.Value;

    private static string FindRoot(string folder) => File.Exists(Path.Combine(folder, "Clackbeat.slnx"))
        ? folder
        : FindRoot(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(folder))!);
}
