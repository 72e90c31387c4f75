using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Tests;

/// <summary>Whatever the line does to the bytes, no wrong frame comes out, and no good one is lost with it.</summary>
public class DamageTests
{
    private static readonly byte[] Follower = Vectors.Named("answer").Frame;
    private static readonly byte[] FollowerBody = Vectors.Named("answer").Body;

    public static TheoryData<string> Names => GoldenVectorTests.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void ASingleFlippedBitNeverGivesAnotherBodyAndNeverCostsTheNextFrame(string name)
    {
        Vector vector = Vectors.Named(name);
        for (int bit = 0; bit < vector.Frame.Length * 8; bit++)
        {
            byte[] flipped = [.. vector.Frame];
            flipped[bit / 8] ^= (byte)(1 << (bit % 8));
            AssertHarmless(vector, Decoding.Bodies(flipped, Follower), $"bit {bit}");
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void ATruncatedFrameNeverGivesAnotherBodyAndNeverCostsTheNextFrame(string name)
    {
        Vector vector = Vectors.Named(name);
        for (int length = 0; length < vector.Frame.Length; length++)
        {
            AssertHarmless(vector, Decoding.Bodies(vector.Frame[..length], Follower), $"first {length} bytes");
            AssertHarmless(vector, Decoding.Bodies(vector.Frame[length..], Follower), $"last bytes from {length}");
        }
    }

    // Found by fuzzing: the bytes up to the longest frame were counted twice.
    [Theory]
    [InlineData(118)]
    [InlineData(119)]
    [InlineData(5000)]
    public void EveryByteOfAPieceOfAnyLengthIsCountedOnceWhenItIsThrownAway(int length)
    {
        FrameDecoder decoder = new();
        for (int i = 0; i < length; i++)
        {
            Assert.False(decoder.Push(0xFF));
        }

        Assert.False(decoder.Push(0));
        Assert.Equal((1, (long)length), (decoder.DiscardedPieces, decoder.DiscardedBytes));
    }

    [Fact]
    public void NoiseBetweenFramesCostsNoGoodFrame()
    {
        Random random = new(2);
        for (int round = 0; round < 200; round++)
        {
            List<byte> line = [];
            foreach (Vector vector in Vectors.All)
            {
                byte[] noise = new byte[random.Next(0, 300)];
                random.NextBytes(noise);
                line.AddRange(noise);
                line.AddRange(vector.Frame);
            }

            Assert.Equal(Vectors.All.Select(v => v.Body), Decoding.Bodies([.. line]));
        }
    }

    [Fact]
    public void ZerosOnesAndRandomBytesGiveNoFrame()
    {
        Assert.Empty(Decoding.Bodies(new byte[100_000]));
        Assert.Empty(Decoding.Bodies(Enumerable.Repeat((byte)0xFF, 100_000).Append((byte)0).ToArray()));

        // A random piece passes a CRC of 32 bits once in 4e9; two million bytes hold some 8000 pieces.
        byte[] noise = new byte[2_000_000];
        new Random(3).NextBytes(noise);
        Assert.Empty(Decoding.Bodies(noise));
    }

    [Fact]
    public void AnOverlongPieceIsThrownAwayWholeAndCounted()
    {
        byte[] overlong = Enumerable.Repeat((byte)0x55, 119).ToArray();
        FrameDecoder decoder = new();
        foreach (byte value in overlong.Concat(Vectors.Named("hello").Frame[1..]).Concat(Follower))
        {
            decoder.Push(value);
        }

        Assert.Equal(1, decoder.GoodFrames);
        Assert.Equal(1, decoder.DiscardedPieces);
        Assert.Equal(FollowerBody, decoder.Body[..decoder.BodyLength]);
    }

    private static void AssertHarmless(Vector vector, List<byte[]> bodies, string what)
    {
        Assert.True(bodies.Count is 1 or 2, $"{vector.Name}, {what}: {bodies.Count} frames");
        Assert.Equal(FollowerBody, bodies[^1]);
        if (bodies.Count == 2)
        {
            Assert.True(vector.Body.AsSpan().SequenceEqual(bodies[0]), $"{vector.Name}, {what}: another body");
        }
    }
}
