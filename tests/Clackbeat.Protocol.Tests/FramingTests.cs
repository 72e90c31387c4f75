using Clackbeat.Protocol.Framing;
using CsCheck;

namespace Clackbeat.Protocol.Tests;

/// <summary>SPEC §1 for bodies and lines of any content, against stuffing and checksum from elsewhere.</summary>
public class FramingTests
{
    // Zeros are what stuffing is about, so half of all bytes are.
    private static readonly Gen<byte[]> Bodies = Gen.Frequency((1, Gen.Const((byte)0)), (1, Gen.Byte)).Array[1, FrameLimits.MaxBody];

    [Fact]
    public void AnyBodyBecomesTheFrameOfThePageAndComesBack() => Bodies.Sample(body =>
    {
        byte[] frame = Decoding.Frame(body);
        Assert.Equal(ByThePage.Frame(body), frame);
        Assert.Equal(body, Assert.Single(Decoding.Bodies(frame)));
    }, iter: 2000);

    [Theory]
    [InlineData(0x00)]
    [InlineData(0x01)]
    [InlineData(0xFF)]
    public void TheLongestBodyFillsTheLongestFrameAndALongerOneIsThrownAway(byte filling)
    {
        byte[] longest = Enumerable.Repeat(filling, 113).ToArray();
        Assert.Equal(120, Decoding.Frame(longest).Length);
        Assert.Equal(longest, Assert.Single(Decoding.Bodies(ByThePage.Frame(longest))));
        Assert.Empty(Decoding.Bodies(ByThePage.Frame([.. longest, filling])));
    }

    // Its first 118 bytes would be a good frame.
    [Fact]
    public void TheHeadOfAnOverlongPieceIsNeverTakenForAFrame()
    {
        byte[] frame = ByThePage.Frame([.. Enumerable.Repeat((byte)0x55, 113)]);
        FrameDecoder decoder = new();
        Assert.DoesNotContain((byte[])[.. frame[..^1], 0x01, 0], decoder.Push);
        Assert.Equal((1, 119L), (decoder.DiscardedPieces, decoder.DiscardedBytes));
    }

    [Fact]
    public void AFrameWithoutABodyIsNone() => Assert.Empty(Decoding.Bodies(ByThePage.Frame([])));

    [Fact]
    public void WhatIsLeftOfAnEarlierFrameNeverCompletesACutOne()
    {
        foreach (Vector vector in Vectors.All)
        {
            for (int kept = 1; kept < vector.Frame.Length - 1; kept++)
            {
                byte[] cut = [.. vector.Frame[..kept], 0];
                Assert.Equal(vector.Body, Assert.Single(Decoding.Bodies(vector.Frame, cut)));
            }
        }
    }

    [Fact]
    public void EveryByteOfALineIsInAFrameADelimiterThrownAwayOrWaiting() =>
        Gen.Select(Bodies, Gen.Byte.Array[0, 300]).Array[1, 6].Sample(pieces =>
        {
            FrameDecoder decoder = new();
            (long zeros, long framed, long sent) = (0, 0, 0);
            foreach (byte value in pieces.SelectMany(p => (byte[])[.. p.Item2, .. Decoding.Frame(p.Item1)]).Concat(pieces[0].Item2))
            {
                sent++;
                zeros += value == 0 ? 1 : 0;
                framed += decoder.Push(value) ? decoder.BodyLength + 5 : 0;
            }

            Assert.Equal(sent, zeros + framed + decoder.DiscardedBytes + decoder.PendingBytes);
            Assert.Equal(pieces.Length, decoder.GoodFrames);
        }, iter: 500);

    [Theory]
    [InlineData(1)]
    [InlineData(40)]
    [InlineData(500)]
    public void APieceBrokenOffByAReopenedPortIsForgottenAndTheNextFrameIsRead(int length)
    {
        FrameDecoder decoder = new();
        for (int i = 0; i < length; i++)
        {
            decoder.Push(0x55);
        }

        decoder.Reset();
        Assert.Equal(0, decoder.PendingBytes);
        Vector vector = Vectors.Named("hello");
        Assert.Equal(1, vector.Frame[1..].Count(decoder.Push));
        Assert.Equal(vector.Body, decoder.Body[..decoder.BodyLength]);
        Assert.Equal(0, decoder.DiscardedPieces);
    }

    [Fact]
    public void NumbersStandLeastByteFirst()
    {
        byte[] bytes = [0xAA, 0x01, 0x02, 0x83, 0x84, 0x05, 0xFF];
        Assert.Equal(0x0201, Fields.U16(bytes, 1));
        Assert.Equal(0x84830201u, Fields.U32(bytes, 1));
        Assert.Equal(0xFF0584830201, Fields.U48(bytes, 1));
    }
}
