using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Capture;

/// <summary>
/// Records from a logger and goes on through whatever happens to the link: a cut cable is waited for, a logger that
/// started anew is started again, another device on the port is left alone. Each loss goes into the recording.
/// </summary>
public sealed class Recorder
{
    private static readonly TimeSpan PollInterval = TimeSpan.FromMilliseconds(100);
    private static readonly TimeSpan AnswerPatience = TimeSpan.FromSeconds(6);
    private static readonly TimeSpan HelloPatience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan ReopenAfter = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan SpeakEvery = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan TellEvery = TimeSpan.FromMilliseconds(500);

    private readonly ILineOpener _opener;
    private readonly RecorderOptions _options;
    private readonly RecordingWriter _writer;
    private readonly TimeProvider _time;
    private readonly Reconnector _reconnector;
    private RecorderState _state = RecorderState.Asking;
    private CaptureBook _book = null!;
    private string _device = "";
    private long _toldAt;
    private long _spokeAt;

    /// <summary>Makes a recorder.</summary>
    /// <param name="opener">Opens the line.</param>
    /// <param name="options">How to record.</param>
    /// <param name="writer">Takes the recording; not owned.</param>
    /// <param name="time">The host's clocks.</param>
    public Recorder(ILineOpener opener, RecorderOptions options, RecordingWriter writer, TimeProvider time)
    {
        _opener = opener;
        _options = options;
        _writer = writer;
        _time = time;
        _reconnector = new Reconnector(opener, options, time, Tell);
    }

    /// <summary>Makes a recorder that only hands on what it takes, by <see cref="Taken"/>, and writes nothing.</summary>
    /// <param name="opener">Opens the line.</param>
    /// <param name="options">How to ask the logger.</param>
    /// <param name="time">The host's clocks.</param>
    public Recorder(ILineOpener opener, RecorderOptions options, TimeProvider time)
        : this(opener, options, new RecordingWriter(NoStore.Instance, time), time)
    {
    }

    /// <summary>Told of each change of state.</summary>
    public Action<RecorderNews>? News { get; set; }

    /// <summary>Told twice a second how far it is.</summary>
    public Action<RecorderProgress>? Progress { get; set; }

    /// <summary>Told of the logger that was met, before its first bytes.</summary>
    public Action<Hello>? Met { get; set; }

    /// <summary>Told of each chunk of the logger that is recorded, on the thread that records.</summary>
    public Action<LineChunk>? Taken { get; set; }

    /// <summary>Records until the time is up or somebody stops it.</summary>
    /// <exception cref="LineException">The port can't be used, or nobody answers on it: before anything was recorded.</exception>
    /// <exception cref="InputException">The logger speaks another protocol or refuses the settings: likewise.</exception>
    /// <exception cref="OperationCanceledException">Stopped before a logger was found.</exception>
    public RecorderSummary Run(CancellationToken stop)
    {
        LoggerTalk? talk = Meet(stop);
        try
        {
            while (true)
            {
                EndReason? end = talk is null ? Ended(stop) : TryStream(talk, stop);
                if (end is { } reason)
                {
                    Finish(talk, reason);
                    return Summary(reason, null);
                }

                talk?.Dispose();
                talk = null;
                _book.Break(LossCause.LinkCut, "the link was lost");
                talk = _reconnector.Next(_device, _book, Housekeeping, stop);
            }
        }
        catch (DiskException disk)
        {
            _book.LoseUnflushed();
            return Summary(EndReason.Disk, disk.Message);
        }
        finally
        {
            talk?.Dispose();
        }
    }

    // The first meeting is with a person at hand: what is wrong is said at once, not waited for.
    private LoggerTalk Meet(CancellationToken stop)
    {
        Tell(RecorderState.Asking, Fact.Of("recorder.asking", ("port", _opener.Name)));
        var talk = LoggerTalk.Open(_opener, _time);
        try
        {
            Hello hello = talk.Identify(_options.IdentifyPatience, stop)
                ?? throw (stop.IsCancellationRequested ? new OperationCanceledException(stop) : talk.Nobody());
            byte[]? stopped = talk.Ask(() => talk.TrySend(Kinds.Stop), b => IsAnswerTo(b, Kinds.Stop), AnswerPatience, stop);
            _device = SessionHeader.DeviceOf(hello);
            Met?.Invoke(hello);
            _book = new CaptureBook(_writer, hello) { Taken = Taken };
            Start(talk, stopped is not null, stop);
            WaitForHello(talk, stop);
            _book.Begin(
                SessionHeader.Of(talk.Hello!, SessionSource.Line, _options.Program, _opener.Name), _options.Documents);
            return talk;
        }
        catch
        {
            talk.Dispose();
            throw;
        }
    }

    // The hello before the first sample names the settings in force; where noise hit it, the logger is asked.
    private void WaitForHello(LoggerTalk talk, CancellationToken stop)
    {
        long began = _time.GetTimestamp();
        while (IsIdle() && _time.GetElapsedTime(began) < HelloPatience)
        {
            talk.Step(PollInterval, stop);
        }

        if (IsIdle())
        {
            talk.Identify(HelloPatience, stop);
        }

        bool IsIdle() => talk.Hello is { Mode: Modes.Idle } && !talk.HasEnded && !stop.IsCancellationRequested;
    }

    // One that had stopped and says that it streams has obeyed; a second start would interrupt its samples.
    private void Start(LoggerTalk talk, bool hadStopped, CancellationToken stop)
    {
        _book.BeginLine();
        talk.Tap = _book.Take;
        byte[]? body = talk.Ask(
            () => talk.TrySend(_options.Start),
            b => IsAnswerTo(b, Kinds.Start) || (hadStopped && LoggerTalk.IsHello(b, Modes.Streaming)),
            AnswerPatience,
            stop,
            _options.StartAgain);
        Answer answer = new();
        if (body is not null && answer.TryRead(body, body.Length) && answer.Result != Results.Done)
        {
            throw new InputException(StartRefusal.Of(_opener.Name, answer.Result, _options.Start));
        }
    }

    // A logger that was given another firmware while it streamed is waited for like one that was unplugged.
    private EndReason? TryStream(LoggerTalk talk, CancellationToken stop)
    {
        try
        {
            return Stream(talk, stop);
        }
        catch (InputException version)
        {
            Tell(RecorderState.WrongVersion, version.What);
            return null;
        }
    }

    // Null when the link was lost, or is silent for so long that the port is better opened anew.
    private EndReason? Stream(LoggerTalk talk, CancellationToken stop)
    {
        Tell(RecorderState.Recording, Fact.Of("recorder.recording", ("device", _device), ("port", _opener.Name)));
        long began = _time.GetTimestamp();
        long asked = began;
        _spokeAt = began;
        long dropped = 0;
        int hellos = talk.Hellos;
        while (!talk.HasEnded && SilentFor(talk, began) < ReopenAfter)
        {
            talk.Step(PollInterval, stop);
            if (talk.DroppedBytes > dropped)
            {
                _book.CountBytes(LossCause.SlowHost, talk.DroppedBytes - dropped);
                dropped = talk.DroppedBytes;
            }

            if (talk.Hello is { Mode: Modes.Idle } && talk.Hellos != hellos)
            {
                hellos = talk.Hellos;
                talk.TrySend(_options.Start);
            }

            asked = WatchSilence(talk, asked);
            KeepTalking(talk);
            Housekeeping();
            if (Ended(stop) is { } reason)
            {
                return reason;
            }
        }

        return null;
    }

    // A logger that may also work alone takes a host that never speaks for gone (protocol SPEC §10).
    private void KeepTalking(LoggerTalk talk)
    {
        if (_time.GetElapsedTime(_spokeAt) >= SpeakEvery)
        {
            _spokeAt = _time.GetTimestamp();
            talk.TrySend(Kinds.AskHealth);
        }
    }

    private long WatchSilence(LoggerTalk talk, long asked)
    {
        if (SilentFor(talk, asked) < _options.SilencePatience)
        {
            if (_state == RecorderState.Silent && !_book.IsBroken)
            {
                Tell(RecorderState.Recording, Fact.Of("recorder.samples-again"));
            }

            return asked;
        }

        _book.Break(LossCause.Silence, "the logger sent no samples");
        Tell(RecorderState.Silent, Fact.Of("recorder.silent"));
        talk.TrySend(Kinds.Identify);
        return _time.GetTimestamp();
    }

    // By what was taken off the line, not by the clock: while a slow disk holds this thread up, samples wait and nobody is silent.
    private TimeSpan SilentFor(LoggerTalk talk, long since)
    {
        long last = Math.Max(_book.LastSampleAt, since);
        return _time.GetElapsedTime(last, Math.Max(talk.TakenUntil, last));
    }

    private EndReason? Ended(CancellationToken stop) =>
        stop.IsCancellationRequested ? EndReason.Asked
        : _options.Length is { } length && _book.RecordedMicroseconds >= length.TotalMicroseconds ? EndReason.TimeUp
        : null;

    private bool Housekeeping()
    {
        _book.Tick();
        if (_time.GetElapsedTime(_toldAt) >= TellEvery)
        {
            _toldAt = _time.GetTimestamp();
            Progress?.Invoke(new RecorderProgress(
                _state,
                _book.RecordedMicroseconds / 1e6,
                _book.Samples,
                _book.Totals.Values.Sum(t => t.Samples),
                _writer.DurableBytes));
        }

        return _options.Length is not { } length || _book.RecordedMicroseconds < length.TotalMicroseconds;
    }

    // What is on its way when the logger is told to stop still arrives and is kept. Whatever it says meanwhile, even that it is
    // of another version by now, what is recorded gets its end.
    private void Finish(LoggerTalk? talk, EndReason reason)
    {
        try
        {
            talk?.Ask(() => talk.TrySend(Kinds.Stop), b => IsAnswerTo(b, Kinds.Stop), AnswerPatience, CancellationToken.None);
            talk?.TakeWaiting();
        }
        catch (InputException version)
        {
            Tell(RecorderState.WrongVersion, version.What);
        }

        _book.End(reason);
    }

    private RecorderSummary Summary(EndReason reason, string? diskFault) => new()
    {
        Reason = reason,
        DiskFault = diskFault,
        Device = _device,
        Samples = diskFault is null ? _book.Samples : _book.DurableSamples,
        RecordedS = _book.RecordedMicroseconds / 1e6,
        Losses = _book.Totals,
        Restarts = _book.Restarts,
        Bench = _book.Bench,
        Clock = _book.Clock.Line(),
    };

    private void Tell(RecorderState state, Fact what)
    {
        if (state != _state || state == RecorderState.Asking)
        {
            _state = state;
            News?.Invoke(new RecorderNews(state, what));
        }
    }

    private static bool IsAnswerTo(byte[] body, byte command) =>
        body.Length >= 3 && body[0] == Kinds.Answer && body[1] == command;
}
