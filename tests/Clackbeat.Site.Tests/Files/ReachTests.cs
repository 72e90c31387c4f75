using Clackbeat.Site.Calibrations;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;

namespace Clackbeat.Site.Tests.Files;

/// <summary>What a site file may make the program read: one calibration, of the size of one, and only when it comes from the disk itself.</summary>
public sealed class ReachTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("clackbeat-reach-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // A recording carries its site file; opened on another computer, that text reads nothing of that computer.
    [Fact]
    public void A_site_s_text_alone_opens_no_file_that_it_names()
    {
        string trap = Path.Combine(_folder, "trap.toml");
        File.WriteAllText(trap, "no calibration");
        RamSite site = SiteFile.Parse(Naming(trap), "site.toml inside a recording");
        Assert.Null(site.Sensor.Calibration);
        Assert.Contains("trap.toml", Assert.Throws<InputException>(() => SiteFile.Load(Written(Naming(trap)))).Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void A_file_without_an_end_is_refused_before_it_fills_the_memory()
    {
        const string Endless = "/dev/zero";
        Skip.IfNot(File.Exists(Endless), "this system has no such device");
        long before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("too large", Assert.Throws<InputException>(() => CalibrationFile.Load(Endless)).Message, StringComparison.Ordinal);
        Assert.Contains("too large", Assert.Throws<InputException>(() => SiteFile.Load(Endless)).Message, StringComparison.Ordinal);
        Assert.Contains("too large", Assert.Throws<InputException>(() => SiteFile.Load(Written(Naming(Endless)))).Message, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 64L << 20);
    }

    private static string Naming(string calibration)
    {
        string template = SiteTemplate.Text(Site.Quantities.Units.Metric);
        const string Key = "# calibration = \"calibration.toml\"";
        Assert.Contains(Key, template, StringComparison.Ordinal);
        return template.Replace(Key, $"calibration = '{calibration}'", StringComparison.Ordinal);
    }

    private string Written(string text)
    {
        string path = Path.Combine(_folder, "site.toml");
        File.WriteAllText(path, text);
        return path;
    }
}
