using Clackbeat.Season.Store;

namespace Clackbeat.Acceptance;

/// <summary>A disk that may only be read: each command that would write says so in words, and blames nobody else.</summary>
public sealed class ReadOnlyDiskTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly bool _isMounted;

    public ReadOnlyDiskTests()
    {
        Directory.CreateDirectory(_folder["disk"]);
        Outcome.Of("site", "new", _folder["ram.toml"]);
        _isMounted = OperatingSystem.IsLinux() && SystemProgram.Run("mount", "-t", "tmpfs", "tmpfs", _folder["disk"]);
        if (_isMounted)
        {
            SqliteSeasonStore.Open(_folder["disk/there.db"], create: true).Dispose();
            Assert.True(SystemProgram.Run("mount", "-o", "remount,ro", _folder["disk"]));
        }
    }

    public void Dispose()
    {
        if (_isMounted)
        {
            SystemProgram.Run("umount", "-l", _folder["disk"]);
        }

        _folder.Dispose();
    }

    [SkippableTheory]
    [InlineData("record", "/dev/ttyNONE", "--out", "disk/new.cbrec", "--site", "ram.toml")]
    [InlineData("log", "/dev/ttyNONE", "--store", "disk/new.db", "--site", "ram.toml")]
    [InlineData("log", "/dev/ttyNONE", "--store", "disk/there.db", "--folder", "my.log", "--site", "ram.toml")]
    [InlineData("trend", "disk/there.db")]
    [InlineData("site", "new", "disk/new.toml")]
    public void What_can_not_be_written_is_told_with_its_place(params string[] line)
    {
        Skip.IfNot(_isMounted, "only root on Linux may make a read-only disk");
        var refused = Outcome.Of([.. line.Select(w => w.Contains('.', StringComparison.Ordinal) ? _folder[w] : w)]);
        Assert.InRange(refused.ExitCode, 1, 2);
        Assert.Contains(_folder["disk"], refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("unexpected", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Another log", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", refused.Error, StringComparison.Ordinal);
    }
}
