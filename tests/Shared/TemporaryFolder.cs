namespace Clackbeat.Testing;

/// <summary>A folder of its own for a test, gone afterwards.</summary>
public sealed class TemporaryFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clackbeat-");

    /// <summary>Where it is.</summary>
    public string Path => _folder.FullName;

    /// <summary>Names of all files in it.</summary>
    public IEnumerable<string> Files => _folder.EnumerateFiles().Select(f => f.Name).Order();

    /// <summary>A path in it.</summary>
    public string this[string name] => System.IO.Path.Combine(_folder.FullName, name);

    /// <inheritdoc/>
    public void Dispose() => _folder.Delete(recursive: true);
}
