using Clackbeat.Logger.Board;
using Clackbeat.Logger.Running;
using Clackbeat.Protocol.Tests;
using Xunit.Abstractions;

namespace Clackbeat.Logger.Tests;

/// <summary>
/// After its start the whole core allocates nothing: samples, frames, readings, reports, and answers to commands. On
/// the device a collection stops the program for milliseconds.
/// </summary>
public class AllocationTests(ITestOutputHelper output)
{
    private const int Warm = 20_000;
    private const int Samples = 120_000;

    [Fact]
    public void SamplesReportsAndAnswersAllocateNothing()
    {
        CountingBoard board = new();
        new LoggerCore(board, new LoggerSettings { ReportEveryMilliseconds = 1000 }, null).Run();
        output.WriteLine($"{board.Frames} frames, {board.Commands} commands");
        Assert.True(board.Frames > Samples / 40, "frames were sent");
        Assert.True(board.Commands > 20, "commands were answered");
        Assert.Equal(0, board.AllocatedAtEnd - board.AllocatedWhenWarm);
    }

    private sealed class CountingBoard : ILoggerBoard
    {
        private readonly byte[] _askHealth = Vectors.Named("ask-health").Frame;
        private byte[]? _next = Vectors.Named("start-bare").Frame;
        private long _now;
        private int _samples;

        public long AllocatedWhenWarm { get; private set; }

        public long AllocatedAtEnd { get; private set; }

        public int Frames { get; private set; }

        public int Commands { get; private set; }

        public int WakeCause => 0;

        public long NowMicroseconds() => _now += 100;

        public int ReadConverter(int channel)
        {
            _samples++;
            if (_samples == Warm)
            {
                AllocatedWhenWarm = GC.GetAllocatedBytesForCurrentThread();
            }
            else if (_samples == Samples)
            {
                AllocatedAtEnd = GC.GetAllocatedBytesForCurrentThread();
                throw new InvalidOperationException("enough");
            }
            else if (_samples % 5000 == 0)
            {
                _next = _askHealth;
            }

            return 1234;
        }

        public void Send(byte[] frame, int length) => Frames++;

        public int Receive(byte[] buffer)
        {
            if (_next is not { } command)
            {
                return 0;
            }

            command.CopyTo(buffer, 0);
            _next = null;
            Commands++;
            return command.Length;
        }

        public void Rest()
        {
        }

        public uint FreeMemoryBytes => 0;

        public void CountMemory()
        {
        }

        public void PowerSensor(bool on)
        {
        }

        public void CopyDeviceId(byte[] destination)
        {
        }

        public long CalendarMilliseconds() => 0;

        public long CalendarUncertaintyMilliseconds => 0;

        public bool SetCalendar(long milliseconds, long uncertaintyMilliseconds) => false;

        public void DeepSleep(long microseconds)
        {
        }

        public void Restart()
        {
        }
    }
}
