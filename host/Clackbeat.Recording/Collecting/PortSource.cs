using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;
using Clackbeat.Recording.Capture;
using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;
using Clackbeat.Site;
using Clackbeat.Site.Facts;

namespace Clackbeat.Recording.Collecting;

/// <summary>
/// A lone logger at the end of a line, asked for its bursts piece by piece (protocol SPEC §5). Several pieces are asked
/// for ahead, so that the line and not the way to and fro sets the pace. The logger takes no command to delete.
/// </summary>
public sealed class PortSource : IBurstSource
{
    // Eight commands of some twenty bytes fit the receiver's buffer of the smallest runtime, 256 bytes.
    private const int PiecesAhead = 8;

    // A computer whose clock is set over the network is within a fraction of this; nobody asks it.
    private const int ComputerUncertaintyMilliseconds = 2000;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(6);

    private readonly LoggerTalk _talk;

    private PortSource(LoggerTalk talk, string device)
    {
        _talk = talk;
        Device = device;
    }

    /// <inheritdoc/>
    public string? Device { get; }

    /// <summary>Opens a port and asks who is there.</summary>
    /// <exception cref="LineException">The port can't be used, or nobody answers.</exception>
    /// <exception cref="InputException">The logger speaks another protocol.</exception>
    public static PortSource Open(ILineOpener opener, TimeProvider time, CancellationToken cancellation)
    {
        var talk = LoggerTalk.Open(opener, time);
        try
        {
            Hello hello = talk.Identify(Patience, cancellation) ?? throw talk.Nobody();

            // A visit is a known time: the bursts that follow it until the next loss of memory carry the calendar.
            talk.TrySend(new SetCalendar
            {
                CalendarMilliseconds = time.GetUtcNow().ToUnixTimeMilliseconds(),
                UncertaintyMilliseconds = ComputerUncertaintyMilliseconds,
            });
            return new PortSource(talk, SessionHeader.DeviceOf(hello));
        }
        catch
        {
            talk.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public IEnumerable<BurstEntry> List(CancellationToken cancellation)
    {
        byte[] body = Ask(
            () => _talk.TrySend(Kinds.ListBursts), b => b[0] == Kinds.BurstList || Refuses(b, Kinds.ListBursts), cancellation);
        BurstList list = new();
        if (!list.TryRead(body, body.Length))
        {
            throw InputException.Of("line.no-card", ("port", _talk.Name));
        }

        for (uint number = list.First; number > 0 && number <= list.Last; number++)
        {
            if (Length(number, cancellation) is long bytes)
            {
                yield return new BurstEntry(number, bytes, $"{_talk.Name}, burst {number}");
            }
        }
    }

    /// <inheritdoc/>
    public byte[] Read(BurstEntry entry, CancellationToken cancellation)
    {
        byte[] file = new byte[entry.Bytes];
        for (long at = 0; at < file.Length; at += (long)PiecesAhead * BurstData.MaxData)
        {
            ReadPieces(entry.Number, file, at, cancellation);
        }

        return file;
    }

    /// <inheritdoc/>
    public bool Delete(BurstEntry entry) => false;

    /// <inheritdoc/>
    public ScheduleOutcome SetSchedule(SetSchedule schedule, CancellationToken cancellation)
    {
        byte[] answer = Ask(() => _talk.TrySend(schedule), b => b is [Kinds.Answer, Kinds.SetSchedule, _, ..], cancellation);
        return answer[2] switch
        {
            Results.Done => ScheduleOutcome.Taken,
            Results.Unknown => ScheduleOutcome.TooOld,
            _ => ScheduleOutcome.Refused,
        };
    }

    /// <inheritdoc/>
    public void Dispose() => _talk.Dispose();

    private void ReadPieces(uint number, byte[] file, long from, CancellationToken cancellation)
    {
        List<long> missing = [];
        for (long at = from; at < file.Length && missing.Count < PiecesAhead; at += BurstData.MaxData)
        {
            missing.Add(at);
        }

        BurstData data = new();
        Ask(
            () => missing.TrueForAll(at => _talk.TrySend(new ReadBurst { Burst = number, Offset = (uint)at })),
            body =>
            {
                if (data.TryRead(body, body.Length) && data.Burst == number && missing.Remove(data.Offset))
                {
                    data.Data.AsSpan(0, (int)Math.Min(data.DataLength, file.Length - data.Offset)).CopyTo(file.AsSpan((int)data.Offset));
                }

                return missing.Count == 0;
            },
            cancellation);
    }

    private long? Length(uint number, CancellationToken cancellation)
    {
        byte[] body = Ask(
            () => _talk.TrySend(new ReadBurst { Burst = number }),
            b => b[0] == Kinds.BurstData || Refuses(b, Kinds.ReadBurst),
            cancellation);
        BurstData data = new();
        return data.TryRead(body, body.Length) && data.Burst == number ? data.Total : null;
    }

    private byte[] Ask(Func<bool> send, Func<byte[], bool> isAnswer, CancellationToken cancellation)
    {
        byte[]? body = _talk.Ask(send, isAnswer, Patience, cancellation);
        cancellation.ThrowIfCancellationRequested();
        return body ?? throw new LineException(
            LineFault.Failed,
            Fact.Of("line.stopped-answering", ("port", _talk.Name)),
            null);
    }

    private static bool Refuses(byte[] body, byte command) =>
        body.Length >= 3 && body[0] == Kinds.Answer && body[1] == command && body[2] != Results.Done;
}
