using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Capture;

/// <summary>
/// Finds the logger again after the link was lost. What comes before it is known who speaks waits; from the right
/// logger it is kept, for it may have gone on sampling all the while.
/// </summary>
internal sealed class Reconnector(
    ILineOpener opener, RecorderOptions options, TimeProvider time, Action<RecorderState, Fact> tell)
{
    // Ten seconds between two hellos of a logger that can't hear us, at 12 kB/s, and room.
    private const long MaxWaitingBytes = 256 * 1024;

    /// <summary>The logger, streaming again; null when recording is to end first.</summary>
    /// <param name="device">Id of the logger that is recorded.</param>
    /// <param name="book">Takes what came.</param>
    /// <param name="goOn">Called often; false ends the wait.</param>
    /// <param name="stop">Likewise.</param>
    public LoggerTalk? Next(string device, CaptureBook book, Func<bool> goOn, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested && goOn())
        {
            if (TryOnce(device, book, stop) is { } talk)
            {
                return talk;
            }

            stop.WaitHandle.WaitOne(options.RetryEvery);
        }

        return null;
    }

    private LoggerTalk? TryOnce(string device, CaptureBook book, CancellationToken stop)
    {
        Queue<LineChunk> waiting = new();
        LoggerTalk? talk = null;
        bool found = false;
        try
        {
            talk = LoggerTalk.Open(opener, time);
            talk.Tap = chunk => Keep(waiting, chunk);
            Hello? hello = talk.Identify(options.IdentifyPatience, stop);
            if (hello is not null && SessionHeader.DeviceOf(hello) == device)
            {
                GoOn(talk, hello, waiting, book, stop);
                found = true;
                return talk;
            }

            Refuse(talk, hello, book);
        }
        catch (LineException fault)
        {
            tell(
                fault.Fault == LineFault.Missing ? RecorderState.LinkLost : RecorderState.PortRefused,
                fault.Fault == LineFault.Missing ? Fact.Of("recorder.link-lost", ("port", opener.Name)) : fault.What);
        }
        catch (InputException version)
        {
            tell(RecorderState.WrongVersion, version.What);
        }
        finally
        {
            if (!found)
            {
                talk?.Dispose();
            }
        }

        return null;
    }

    private void GoOn(LoggerTalk talk, Hello hello, Queue<LineChunk> waiting, CaptureBook book, CancellationToken stop)
    {
        book.BeginLine();
        foreach (LineChunk chunk in waiting)
        {
            book.Take(chunk);
        }

        talk.Tap = book.Take;
        if (hello.Mode != Modes.Streaming)
        {
            talk.Ask(
                () => talk.TrySend(options.Start),
                b => (b.Length >= 3 && b[0] == Kinds.Answer && b[1] == Kinds.Start) || LoggerTalk.IsHello(b, Modes.Streaming),
                options.IdentifyPatience,
                stop,
                options.StartAgain);
        }
    }

    private void Refuse(LoggerTalk talk, Hello? hello, CaptureBook book)
    {
        if (hello is null && talk.BytesIn == 0)
        {
            tell(RecorderState.LinkLost, Fact.Of("recorder.nobody-yet", ("port", opener.Name)));
            return;
        }

        book.CountBytes(LossCause.WrongDevice, talk.BytesIn);
        tell(RecorderState.WrongDevice, hello is null
            ? Fact.Of("recorder.stranger", ("port", opener.Name))
            : Fact.Of("recorder.other-logger", ("device", SessionHeader.DeviceOf(hello)), ("port", opener.Name)));
    }

    private static void Keep(Queue<LineChunk> waiting, LineChunk chunk)
    {
        waiting.Enqueue(chunk);
        while (waiting.Sum(c => (long)c.Bytes.Length) > MaxWaitingBytes)
        {
            waiting.Dequeue();
        }
    }
}
