namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A disk of its own, of memory: it can be filled, pulled out and put in again. Only root on Linux may make one.</summary>
internal sealed class SmallDisk : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _disk;

    private SmallDisk(int bytes)
    {
        _disk = Directory.CreateDirectory(_folder["disk"]).FullName;
        Place = Directory.CreateDirectory(_folder["place"]).FullName;
        IsMade = SystemProgram.Run("mount", "-t", "tmpfs", "-o", $"size={bytes}", "tmpfs", _disk) && PutIn();
    }

    /// <summary>Where it is seen while it is in.</summary>
    public string Place { get; }

    private bool IsMade { get; }

    /// <summary>Makes one, or lists the test as skipped.</summary>
    public static SmallDisk Make(int bytes)
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "needs a disk made of memory, as Linux makes them");
        var disk = new SmallDisk(bytes);
        if (!disk.IsMade)
        {
            disk.Dispose();
            Skip.If(true, "this user may not mount disks here");
        }

        return disk;
    }

    /// <summary>Fills it up.</summary>
    public void Fill()
    {
        try
        {
            using var ballast = new FileStream(Ballast, FileMode.Create);
            byte[] piece = new byte[4096];
            while (true)
            {
                ballast.Write(piece);
                ballast.Flush();
            }
        }
        catch (IOException)
        {
            // Full, as was wanted.
        }
    }

    /// <summary>Makes room again.</summary>
    public void Free() => File.Delete(Ballast);

    /// <summary>Gone from its place, as a stick that is pulled out.</summary>
    public void PullOut() => Assert.True(SystemProgram.Run("umount", "-l", Place));

    /// <summary>Back in its place, with what it held.</summary>
    public bool PutIn() => SystemProgram.Run("mount", "--bind", _disk, Place);

    public void Dispose()
    {
        SystemProgram.Run("umount", "-l", Place);
        SystemProgram.Run("umount", "-l", _disk);
        _folder.Dispose();
    }

    private string Ballast => Path.Combine(_disk, "ballast");
}
