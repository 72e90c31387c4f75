using Clackbeat.Recording.Files;
using Clackbeat.Recording.Link;

namespace Clackbeat.Recording.Tests.Files;

/// <summary>A read may give a single byte of what was asked for (read(2), as networks, pipes and serial lines do): readers ask again.</summary>
public class ShortReadTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(1000)]
    public void A_recording_that_comes_in_pieces_is_the_same_blocks(int most)
    {
        ScriptedRecording recording = new(0.1);
        byte[] file = recording.Disk.Found(recording.Disk.Moments - 1, _ => Fate.Kept, new Random(0));

        // Damage too, so that the search for the next good block goes over pieces.
        file.AsSpan(file.Length / 2, 40).Clear();
        Random random = new(most);
        string[] whole = Blocks(new MemoryStream(file));
        Assert.NotEmpty(whole);
        Assert.Equal(whole, Blocks(new Passing(new MemoryStream(file), atMost: () => random.Next(1, most + 1))));
    }

    [Fact]
    public void A_line_that_gives_one_byte_at_a_time_gives_the_same_bytes()
    {
        byte[] sent = new byte[3000];
        new Random(1).NextBytes(sent);
        using LinePump pump = new(new Passing(new MemoryStream(sent), atMost: () => 1), TimeProvider.System, TimeSpan.Zero);
        List<byte> came = [];
        while (!pump.HasEnded)
        {
            if (pump.TryTake(out LineChunk chunk, TimeSpan.FromSeconds(1), CancellationToken.None))
            {
                came.AddRange(chunk.Bytes);
            }
        }

        Assert.Equal(sent, came);
    }

    private static string[] Blocks(Stream file)
    {
        List<string> found = [];
        BlockReader blocks = new(file, "file")
        {
            Unfit = unfit => found.Add($"{unfit}"),
            Spoilt = block => found.Add($"spoilt {block.Head} {block.Offset} {Convert.ToHexString(block.Payload.Span)}"),
        };
        while (blocks.Next() is { } block)
        {
            found.Add($"{block.Head} {block.Offset} {Convert.ToHexString(block.Payload.Span)}");
        }

        return [.. found];
    }
}
