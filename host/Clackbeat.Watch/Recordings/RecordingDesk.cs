using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Words;

namespace Clackbeat.Watch.Recordings;

/// <summary>A recording made from the page.</summary>
/// <param name="Id">Its number, by which the page names it.</param>
/// <param name="Path">The file.</param>
/// <param name="BeganUtc">When it was begun.</param>
public sealed record DeskRecording(int Id, string Path, DateTimeOffset BeganUtc)
{
    /// <summary>Length so far, or in all [s].</summary>
    public double LengthS { get; internal set; }

    /// <summary>Samples so far, or in all.</summary>
    public long Samples { get; internal set; }

    /// <summary>Marks in it.</summary>
    public int Marks { get; internal set; }

    /// <summary>It is closed, whole on the disk.</summary>
    public bool IsClosed { get; internal set; }

    /// <summary>What the disk said when it failed; null when it did not.</summary>
    public string? Fault { get; internal set; }
}

/// <summary>
/// Begins and ends recordings while the watch goes on, marks in them what was done at the ram, and keeps them in one
/// folder under names of its own. Samples come on the source's thread, wishes on any.
/// </summary>
public sealed class RecordingDesk : IDisposable
{
    /// <summary>Longest text of a mark.</summary>
    public const int LongestMark = 80;

    private readonly Lock _gate = new();
    private readonly string _folder;
    private readonly string _program;
    private readonly IReadOnlyList<RecordingDocument> _documents;
    private readonly TimeProvider _time;
    private readonly List<DeskRecording> _all = [];
    private Hello? _hello;
    private string _place = "";
    private RecordingWriter? _writer;
    private CaptureBook? _book;
    private DeskRecording? _current;
    private bool _isAligned;

    /// <summary>Makes a desk.</summary>
    /// <param name="folder">Where recordings go; made with the first.</param>
    /// <param name="documents">Texts that travel in each.</param>
    /// <param name="program">Version of the program.</param>
    /// <param name="time">The host's clocks.</param>
    public RecordingDesk(string folder, IReadOnlyList<RecordingDocument> documents, string program, TimeProvider time)
    {
        (_folder, _documents, _program, _time) = (Path.GetFullPath(folder), documents, program, time);
    }

    /// <summary>Where recordings go.</summary>
    public string Folder => _folder;

    /// <summary>A logger is there whose frames can be kept.</summary>
    public bool CanRecord
    {
        get
        {
            lock (_gate)
            {
                return _hello is not null;
            }
        }
    }

    /// <summary>The one that runs; null for none.</summary>
    public DeskRecording? Current
    {
        get
        {
            lock (_gate)
            {
                return _current;
            }
        }
    }

    /// <summary>All recordings of this watch, in order.</summary>
    public IReadOnlyList<DeskRecording> All
    {
        get
        {
            lock (_gate)
            {
                return [.. _all];
            }
        }
    }

    /// <summary>Begins a recording; the one that runs, if any, is returned instead.</summary>
    /// <exception cref="InvalidOperationException">There is no logger to record from.</exception>
    /// <exception cref="IOException">The folder or file can't be made.</exception>
    public DeskRecording Begin()
    {
        lock (_gate)
        {
            if (_current is { } running)
            {
                return running;
            }

            Hello hello = _hello ?? throw new InvalidOperationException(Phrases.Say("page-server.no-logger"));
            Directory.CreateDirectory(_folder);
            DateTimeOffset now = _time.GetUtcNow();
            string path = FreeName(now.ToLocalTime());
            _writer = new RecordingWriter(DiskStore.Create(path), _time);
            _book = new CaptureBook(_writer, hello);
            _book.Begin(SessionHeader.Of(hello, SessionSource.Line, _program, _place), _documents);
            _isAligned = false;
            _current = new DeskRecording(_all.Count + 1, path, now);
            _all.Add(_current);
            return _current;
        }
    }

    /// <summary>Ends the recording that runs; null when none does.</summary>
    public DeskRecording? End()
    {
        lock (_gate)
        {
            DeskRecording? ended = _current;
            Guarded(book => book.End(EndReason.Asked));
            Release();
            return ended;
        }
    }

    /// <summary>Marks in the running recording what was done at the ram; false when none runs.</summary>
    public bool Mark(string words)
    {
        lock (_gate)
        {
            if (_current is not { } current)
            {
                return false;
            }

            current.Marks++;
            Guarded(book => book.Add(new RecordingDocument(DocumentRole.Mark, $"mark {current.Marks}", words)));
            return true;
        }
    }

    internal void Meet(Hello hello, string place)
    {
        lock (_gate)
        {
            (_hello, _place) = (hello, place);
        }
    }

    internal void Take(LineChunk chunk, Hello? hello)
    {
        lock (_gate)
        {
            _hello = hello ?? _hello;
            if (_book is null)
            {
                return;
            }

            Guarded(book => book.Take(_isAligned ? chunk : FromNextFrame(chunk)));
        }
    }

    internal void Tell(RecorderState state)
    {
        lock (_gate)
        {
            switch (state)
            {
                case RecorderState.LinkLost or RecorderState.PortRefused or RecorderState.WrongDevice or RecorderState.WrongVersion:
                    Guarded(book => book.Break(LossCause.LinkCut, "the link was lost"));
                    break;
                case RecorderState.Silent:
                    Guarded(book => book.Break(LossCause.Silence, "the logger sent no samples"));
                    break;
            }
        }
    }

    internal void Tick()
    {
        lock (_gate)
        {
            Guarded(book => book.Tick());
        }
    }

    /// <summary>Ends what still runs.</summary>
    public void Dispose() => End();

    // A recording that begins in the middle of a frame would begin with what looks like noise.
    private LineChunk FromNextFrame(LineChunk chunk)
    {
        int end = Array.IndexOf(chunk.Bytes, (byte)0);
        _isAligned = end >= 0;
        return chunk with { Bytes = _isAligned ? chunk.Bytes[end..] : [] };
    }

    // A disk that fails ends the recording, never the watch.
    private void Guarded(Action<CaptureBook> act)
    {
        if (_book is not { } book || _current is not { } current)
        {
            return;
        }

        try
        {
            act(book);
            (current.Samples, current.LengthS) = (book.Samples, book.RecordedMicroseconds / 1e6);
        }
        catch (DiskException fault)
        {
            current.Fault = fault.Message;
            Release();
        }
    }

    private void Release()
    {
        _writer?.Dispose();
        if (_current is { } current)
        {
            current.IsClosed = true;
        }

        (_writer, _book, _current) = (null, null, null);
    }

    private string FreeName(DateTimeOffset now)
    {
        string name = now.ToString("yyyy-MM-dd-HHmmss", System.Globalization.CultureInfo.InvariantCulture);
        string path = Path.Combine(_folder, name + ".cbrec");
        for (int again = 2; File.Exists(path); again++)
        {
            path = Path.Combine(_folder, $"{name}-{again}.cbrec");
        }

        return path;
    }
}
