using Clackbeat.Recording.Files;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>A second is the format's promise (recording-format §8).</summary>
public class FlushTests
{
    [Fact]
    public void Whatever_comes_and_however_it_comes_it_is_on_the_disk_within_a_second()
    {
        ManualTime time = new();
        using RecordingWriter writer = new(new Memory(), time);
        Queue<(long Bytes, TimeSpan At)> waiting = new();
        TimeSpan now = TimeSpan.Zero;
        long sent = 0;
        Random random = new(1);
        for (int i = 0; i < 5000; i++)
        {
            var pause = TimeSpan.FromMilliseconds(random.Next(100));
            time.Pass(pause);
            now += pause;
            if (random.Next(3) > 0)
            {
                writer.AddBytes(new byte[random.Next(1, 8192)], 0);
                sent = writer.TakenBytes;
                waiting.Enqueue((sent, now));
            }

            writer.FlushIfDue();
            while (waiting.Count > 0 && waiting.Peek().Bytes <= writer.DurableBytes)
            {
                waiting.Dequeue();
            }

            Assert.True(waiting.Count == 0 || now - waiting.Peek().At < TimeSpan.FromSeconds(1));
        }

        Assert.True(sent > 0);
    }

    private sealed class Memory : IRecordingStore
    {
        public void Append(ReadOnlySpan<byte> bytes)
        {
        }

        public void Flush()
        {
        }

        public void Dispose()
        {
        }
    }
}
