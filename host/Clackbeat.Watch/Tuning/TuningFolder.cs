using Clackbeat.Site;
using Clackbeat.Tuning.Trials;

namespace Clackbeat.Watch.Tuning;

/// <summary>A session that lies in the folder.</summary>
/// <param name="Name">Name of its file.</param>
/// <param name="Session">The session.</param>
internal sealed record KeptSession(string Name, TuningSession Session);

/// <summary>
/// The folder with the sessions' files, which the command line reads and writes too. A name that a page sends is only ever
/// compared with the names that lie there.
/// </summary>
internal sealed class TuningFolder(string folder, string ram, TimeProvider time)
{
    private const string Ending = ".tune";
    private const int MostListed = 12;

    private DateTime _written;

    /// <summary>Sessions of this ram, newest first.</summary>
    public IReadOnlyList<KeptSession> List() => Directory.Exists(folder)
        ? [.. new DirectoryInfo(folder).EnumerateFiles("*" + Ending).OrderByDescending(f => f.LastWriteTimeUtc)
            .Select(f => Read(f.Name)).OfType<KeptSession>().Where(k => k.Session.Ram == ram).Take(MostListed)]
        : [];

    /// <summary>A session by its file's name; null where the folder holds none of that name.</summary>
    public KeptSession? Open(string name)
    {
        KeptSession? found = List().FirstOrDefault(k => k.Name == name);
        _written = found is null ? default : WrittenAt(name);
        return found;
    }

    /// <summary>A name that is free.</summary>
    public string FreeName()
    {
        string stem = "valve-" + time.GetLocalNow().ToString("yyyy-MM-dd-HHmm", System.Globalization.CultureInfo.InvariantCulture);
        string name = stem + Ending;
        for (int again = 2; File.Exists(Path.Combine(folder, name)); again++)
        {
            name = $"{stem}-{again}{Ending}";
        }

        return name;
    }

    /// <summary>Writes a session.</summary>
    /// <exception cref="IOException">The folder or the file can't be written.</exception>
    public void Save(string name, TuningSession session)
    {
        try
        {
            Directory.CreateDirectory(folder);
            SessionFile.Save(Path.Combine(folder, name), session);
            _written = WrittenAt(name);
        }
        catch (UnauthorizedAccessException refused)
        {
            throw new IOException(refused.Message, refused);
        }
    }

    /// <summary>The session as another program has left it meanwhile; null where nothing changed, or what lies there is none.</summary>
    public TuningSession? ChangedElsewhere(string name)
    {
        DateTime written = WrittenAt(name);
        if (written == _written)
        {
            return null;
        }

        _written = written;
        return Read(name)?.Session is { } session && session.Ram == ram ? session : null;
    }

    private DateTime WrittenAt(string name) => File.GetLastWriteTimeUtc(Path.Combine(folder, name));

    private KeptSession? Read(string name)
    {
        try
        {
            return new KeptSession(name, SessionFile.Load(Path.Combine(folder, name)));
        }
        catch (Exception fault) when (fault is InputException or IOException or UnauthorizedAccessException)
        {
            // A file that is no session isn't offered; 'tune next FILE' says what is wrong with it.
            return null;
        }
    }
}
