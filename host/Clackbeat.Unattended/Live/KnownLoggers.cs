using System.Text.Json;
using Clackbeat.Unattended.Raw;

namespace Clackbeat.Unattended.Live;

/// <summary>Which logger belongs to which ram, remembered over restarts: ports change their names, loggers don't.</summary>
internal sealed class KnownLoggers
{
    private readonly string _path;
    private readonly Lock _gate = new();
    private readonly Dictionary<string, string> _loggers;

    public KnownLoggers(string path)
    {
        _path = path;
        _loggers = Read(path);
    }

    /// <summary>The logger of a ram; null before the first meeting.</summary>
    public string? Of(string ram)
    {
        lock (_gate)
        {
            return _loggers.GetValueOrDefault(ram);
        }
    }

    /// <summary>Whether a logger is known as another ram's.</summary>
    public bool IsOfAnother(string ram, string logger)
    {
        lock (_gate)
        {
            return _loggers.Any(l => l.Key != ram && l.Value == logger);
        }
    }

    /// <summary>Remembers it.</summary>
    public void Learn(string ram, string logger)
    {
        lock (_gate)
        {
            if (_loggers.GetValueOrDefault(ram) != logger)
            {
                _loggers[ram] = logger;
                Save();
            }
        }
    }

    // A disk that is full or failing is told of where bursts are recorded; a memory that can't be kept is no reason not to try.
    private void Save()
    {
        try
        {
            AtomicFile.Write(_path, JsonSerializer.Serialize(_loggers));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            // The next meeting in the next run makes it anew.
        }
    }

    // What can't be read is only a memory: the next meeting makes it anew.
    private static Dictionary<string, string> Read(string path)
    {
        try
        {
            return File.Exists(path) ? JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllText(path)) ?? [] : [];
        }
        catch (JsonException)
        {
            return [];
        }
    }
}
