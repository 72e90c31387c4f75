namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>A folder of its own for a test, gone afterwards.</summary>
public sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clackbeat-");

    public string Path => _folder.FullName;

    public string this[string name] => System.IO.Path.Combine(_folder.FullName, name);

    public void Dispose() => _folder.Delete(recursive: true);
}
