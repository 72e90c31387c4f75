using System.ComponentModel;
using System.Diagnostics;
using Clackbeat.Season.Store;

namespace Clackbeat.Acceptance;

/// <summary>A disk that may only be read: each command that would write says so in words, and blames nobody else.</summary>
public sealed class ReadOnlyDiskTests : IDisposable
{
    private readonly TemporaryFolder folder = new();
    private readonly bool isMounted;

    public ReadOnlyDiskTests()
    {
        Directory.CreateDirectory(folder["disk"]);
        Outcome.Of("site", "new", folder["ram.toml"]);
        isMounted = OperatingSystem.IsLinux() && Run("mount", "-t", "tmpfs", "tmpfs", folder["disk"]);
        if (isMounted)
        {
            SqliteSeasonStore.Open(folder["disk/there.db"], create: true).Dispose();
            Assert.True(Run("mount", "-o", "remount,ro", folder["disk"]));
        }
    }

    public void Dispose()
    {
        if (isMounted)
        {
            Run("umount", "-l", folder["disk"]);
        }

        folder.Dispose();
    }

    [SkippableTheory]
    [InlineData("record", "/dev/ttyNONE", "--out", "disk/new.cbrec", "--site", "ram.toml")]
    [InlineData("log", "/dev/ttyNONE", "--store", "disk/new.db", "--site", "ram.toml")]
    [InlineData("log", "/dev/ttyNONE", "--store", "disk/there.db", "--folder", "my.log", "--site", "ram.toml")]
    [InlineData("trend", "disk/there.db")]
    [InlineData("site", "new", "disk/new.toml")]
    public void What_can_not_be_written_is_told_with_its_place(params string[] line)
    {
        Skip.IfNot(isMounted, "only root on Linux may make a read-only disk");
        Outcome refused = Outcome.Of([.. line.Select(w => w.Contains('.', StringComparison.Ordinal) ? folder[w] : w)]);
        Assert.InRange(refused.ExitCode, 1, 2);
        Assert.Contains(folder["disk"], refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("unexpected", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Another log", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", refused.Error, StringComparison.Ordinal);
    }

    private static bool Run(string program, params string[] arguments)
    {
        try
        {
            using Process run = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
            run.StandardError.ReadToEnd();
            run.WaitForExit();
            return run.ExitCode == 0;
        }
        catch (Win32Exception)
        {
            return false;
        }
    }
}
