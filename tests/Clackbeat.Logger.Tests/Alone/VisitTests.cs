using Clackbeat.Logger.Alone;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.VirtualLogger;

namespace Clackbeat.Logger.Tests.Alone;

/// <summary>A keeper plugs a cable into a lone logger: it answers at once, and goes on by itself afterwards.</summary>
public sealed class VisitTests : IDisposable
{
    private readonly LoneBench _bench = new();
    private readonly FrameWriter _writer = new();
    private readonly FrameDecoder _decoder = new();
    private ServedLogger? _served;

    public void Dispose()
    {
        _served?.Dispose();
        _bench.Dispose();
    }

    [Fact(Timeout = 60_000)]
    public async Task TheBurstsOfACardAreListedAndReadOverTheLine()
    {
        _bench.Run(3.5 * LoneBench.IntervalS);
        byte[] onCard = await File.ReadAllBytesAsync(_bench.PathOf(2));
        await Task.Run(() =>
        {
            Plug();
            BurstList list = Ask<BurstList>(Kinds.ListBursts);
            Assert.Equal(1u, list.First);
            Assert.InRange(list.Last, 4u, 6u);
            Assert.Equal(list.Last, list.Count);
            Assert.Equal(onCard, ReadOverTheLine(2));
        });
    }

    [Fact(Timeout = 60_000)]
    public async Task ABurstThatIsRunningIsEndedForAHostAndItsFileIsWhole()
    {
        _bench.Settings.BurstLengthMilliseconds = 600_000;
        _bench.Settings.BurstIntervalMilliseconds = 1_200_000;
        _bench.Settings.ListenMilliseconds = 100;
        await Task.Run(() =>
        {
            Plug();
            DateTime patience = DateTime.UtcNow.AddSeconds(20);
            while (!IsRecording(1) && DateTime.UtcNow < patience)
            {
                Thread.Sleep(10);
            }

            Send(Kinds.Identify);
            Await(Kinds.Identity);
            Hello hello = new();
            byte[] body = Await(Kinds.Hello);
            Assert.True(hello.TryRead(body, body.Length));
        });
        CardFile file = _bench.Read(1);
        Assert.NotNull(file.End);
        Assert.Equal((uint)file.Samples.Count, file.End.Samples);
    }

    [Fact(Timeout = 60_000)]
    public async Task AfterTheVisitTheLoggerGoesOnAndItsNextFileHoldsTheTimeItWasTold()
    {
        const long toldMs = 1_790_000_000_000;
        await Task.Run(() =>
        {
            Plug();
            new SetCalendar { CalendarMilliseconds = toldMs, UncertaintyMilliseconds = 50 }.Write(_writer);
            Send();
            Await(Kinds.TimeMark);

            // The host falls silent; so long as its bytes are taken away the logger is free to go on.
            uint after = 0;
            DateTime end = DateTime.UtcNow.AddSeconds(40);
            while (after < 2 && DateTime.UtcNow < end)
            {
                Receive();
                after = _bench.Numbers.DefaultIfEmpty().Max();
            }
        });
        TimeMark mark = _bench.Read(_bench.Numbers.Min()).TimeMark!;
        Assert.Equal(ClockSources.Host, mark.Source);
        Assert.InRange(mark.CalendarMilliseconds, toldMs, toldMs + 60_000);
        Assert.True(_bench.Numbers.Max() >= 2);
    }

    [Fact(Timeout = 60_000)]
    public async Task AScheduleThatAHostSetsHoldsFromTheNextBurstOnAndAfterALossOfPower()
    {
        await Task.Run(() =>
        {
            Plug();
            Assert.Equal(Results.OutOfRange, Set(lengthMs: 5_000, intervalMs: 14_999));
            Assert.Equal(Results.OutOfRange, Set(lengthMs: 999, intervalMs: 60_000));
            Assert.Equal(Results.OutOfRange, Set(lengthMs: 5_000, intervalMs: 604_800_001));
            Assert.Equal(Results.Done, Set(lengthMs: 5_000, intervalMs: 120_000));
            _served!.Dispose();
            _served = null;
        });
        int before = _bench.Numbers.Count();

        // The build's own settings are two seconds a minute, and a logger starts from them each time.
        _bench.Settings.BurstLengthMilliseconds = LoneBench.BurstS * 1000;
        _bench.Settings.BurstIntervalMilliseconds = LoneBench.IntervalS * 1000;
        _bench.Run(3.5 * 120);
        uint[] numbers = [.. _bench.Numbers.Skip(before)];
        Assert.Equal(4, numbers.Length);
        Assert.All(numbers, n => Assert.Equal((5_000u, 120_000u), (_bench.Read(n).Start.LengthMilliseconds, _bench.Read(n).Start.IntervalMilliseconds)));
    }

    [Fact]
    public void ADamagedScheduleChangesNothing()
    {
        File.WriteAllBytes(_bench.StatePath(BurstNames.ScheduleSlot), [0, 5, 0x34, 0x90, 0x5f, 1, 4, 0x40, 0x77, 0x1b, 5, 8, 0x96, 9, 0xc7, 1, 0]);
        _bench.Run(1.5 * LoneBench.IntervalS);
        Assert.Equal(LoneBench.BurstS * 1000u, _bench.Read(1).Start.LengthMilliseconds);
    }

    private int Set(uint lengthMs, uint intervalMs)
    {
        new SetSchedule { LengthMilliseconds = lengthMs, IntervalMilliseconds = intervalMs }.Write(_writer);
        Send();
        return Await(Kinds.Answer)[2];
    }

    // A file alone says nothing: at its start the logger tries the card, and takes the file away again.
    private bool IsRecording(uint burst) => new FileInfo(_bench.PathOf(burst)) is { Exists: true, Length: > 1000 };

    // A burst comes over the line in some 85 pieces; the file is opened once and not 170 times.
    [Fact(Timeout = 60_000)]
    public async Task ABurstThatIsReadOverTheLineIsOpenedOnce()
    {
        _bench.Run(1.5 * LoneBench.IntervalS);
        byte[] onCard = await File.ReadAllBytesAsync(_bench.PathOf(1));
        await Task.Run(() =>
        {
            _served = VirtualLogger.VirtualLogger.Connect(
                new LoneBench.TrueSeconds(), _bench.Options() with { Card = _bench.Card }, CancellationToken.None);
            Ask<BurstList>(Kinds.ListBursts);
            int before = _bench.Card.Openings;
            Assert.Equal(onCard, ReadOverTheLine(1));
            Assert.InRange(_bench.Card.Openings - before, 1, 2);
        });
    }

    [Fact(Timeout = 60_000)]
    public async Task ALoggerWithAFullCardAnswersAndSaysSo()
    {
        using LoneBench full = new(cardBytes: 100);
        await Task.Run(() =>
        {
            _served = VirtualLogger.VirtualLogger.Connect(
                new LoneBench.TrueSeconds(), full.Options() with { CardBytes = 100 }, CancellationToken.None);
            Send(Kinds.AskHealth);
            Health health = new();
            byte[] body = Await(Kinds.Health);
            Assert.True(health.TryRead(body, body.Length));
            Assert.Equal(StorageStates.Full, health.Storage);
        });
    }

    private void Plug()
    {
        _served = VirtualLogger.VirtualLogger.Connect(
            new LoneBench.TrueSeconds(), _bench.Options(), CancellationToken.None);
    }

    private byte[] ReadOverTheLine(uint burst)
    {
        List<byte> bytes = [];
        BurstData data = new();
        do
        {
            new ReadBurst { Burst = burst, Offset = (uint)bytes.Count }.Write(_writer);
            Send();
            byte[] body = Await(Kinds.BurstData);
            Assert.True(data.TryRead(body, body.Length));
            bytes.AddRange(data.Data.AsSpan(0, data.DataLength));
        }
        while (data.DataLength > 0);
        return [.. bytes];
    }

    private T Ask<T>(byte command)
        where T : Message, new()
    {
        T answer = new();
        Send(command);
        byte[] body = Await(Kinds.BurstList);
        Assert.True(answer.TryRead(body, body.Length));
        return answer;
    }

    private void Send(byte kind)
    {
        _writer.Begin(kind);
        _writer.End();
        Send();
    }

    private void Send()
    {
        _served!.HostStream!.Write(_writer.Buffer, 0, _writer.Length);
        _served.HostStream.Flush();
    }

    private byte[] Await(byte kind)
    {
        DateTime end = DateTime.UtcNow.AddSeconds(20);
        while (DateTime.UtcNow < end)
        {
            if (Receive() is { } body && body[0] == kind)
            {
                return body;
            }
        }

        throw new TimeoutException($"no frame of kind {kind:X2}");
    }

    private byte[]? Receive()
    {
        int value = _served!.HostStream!.ReadByte();
        return value >= 0 && _decoder.Push((byte)value) ? _decoder.Body[.._decoder.BodyLength] : null;
    }
}
