using System.Text;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Protocol.Tests;

/// <summary>SPEC §3 to §5 and §9: the edges of each message.</summary>
public class MessageTests
{
    public static TheoryData<string> WithFields => [.. Vectors.All.Where(v => GoldenVectorTests.Blank(v.Body[0]) is not null).Select(v => v.Name)];

    [Theory]
    [MemberData(nameof(WithFields))]
    public void AMessageIsTakenFromABodyOfItsOwnKindAlone(string name)
    {
        byte[] body = new byte[FrameLimits.MaxBody];
        Vectors.Named(name).Body.CopyTo(body, 0);
        for (int kind = 0; kind <= 0xFF; kind++)
        {
            Message message = GoldenVectorTests.Blank(Vectors.Named(name).Body[0])!;
            bool own = kind == body[0];
            byte[] other = [(byte)kind, .. body[1..]];
            Assert.Equal(own, message.TryRead(other, other.Length));
        }
    }

    // SPEC §4: identity 12 bytes before its name, fault 8 before its text, burst data 13 before its data.
    [Theory]
    [InlineData("identity", 12)]
    [InlineData("fault", 8)]
    [InlineData("burst-data", 13)]
    public void WhatIsLeftMayBeNothingOrFillTheFrameButNoFieldMayBeMissing(string name, int fields)
    {
        byte[] body = [.. Vectors.Named(name).Body[..fields], .. Enumerable.Range(1, FrameLimits.MaxBody - fields).Select(i => (byte)i)];
        for (int length = 1; length <= body.Length; length++)
        {
            Message message = GoldenVectorTests.Blank(body[0])!;
            Assert.Equal(length >= fields, message.TryRead(body, length));
            if (length >= fields)
            {
                Assert.Equal(body[..length], Assert.Single(Decoding.Bodies(GoldenVectorTests.Written(message))));
            }
        }
    }

    // SPEC §5: fields may be left out from the end; a piece of a field is none.
    [Theory]
    [InlineData(1, 0u, 0xFFFF, 0xFFFF)]
    [InlineData(4, 0u, 0xFFFF, 0xFFFF)]
    [InlineData(5, 0x04030201u, 0xFFFF, 0xFFFF)]
    [InlineData(6, 0x04030201u, 0xFFFF, 0xFFFF)]
    [InlineData(7, 0x04030201u, 0x0605, 0xFFFF)]
    [InlineData(8, 0x04030201u, 0x0605, 0xFFFF)]
    [InlineData(9, 0x04030201u, 0x0605, 0x0807)]
    [InlineData(10, 0x04030201u, 0x0605, 0x0807)]
    public void AStartTakesTheFieldsThatAreWholeAndLeavesTheOthersAsSet(int length, uint period, int supplyEvery, int deliveryEvery)
    {
        StartCommand start = new() { PeriodMicroseconds = 9, SupplyEvery = 9, DeliveryEvery = 9 };
        Assert.True(start.TryRead([Kinds.Start, 1, 2, 3, 4, 5, 6, 7, 8, 9], length));
        Assert.Equal((period, supplyEvery, deliveryEvery), (start.PeriodMicroseconds, start.SupplyEvery, start.DeliveryEvery));
    }

    [Fact]
    public void AnEmptyBodyIsNoStart() => Assert.False(new StartCommand().TryRead([Kinds.Start], 0));

    [Fact]
    public void AStartSaidWithoutFieldsAsksForNothingButWhatIsSet()
    {
        StartCommand start = new();
        Assert.Equal((0u, 0xFFFF, 0xFFFF), (start.PeriodMicroseconds, start.SupplyEvery, start.DeliveryEvery));
    }

    [Theory]
    [InlineData("card gone", "card gone")]
    [InlineData(" ~", " ~")]
    [InlineData("Größe\n\u007F…", "Gr??e???")]
    [InlineData("", "")]
    public void AFaultSpeaksInPlainLettersAndShowsWhereItCouldNot(string text, string told) => Assert.Equal(told, Told(text));

    [Theory]
    [InlineData(79)]
    [InlineData(80)]
    [InlineData(81)]
    [InlineData(5000)]
    public void ALongFaultIsCutToEightyLetters(int length) => Assert.Equal(new string('x', Math.Min(length, 80)), Told(new string('x', length)));

    private static string Told(string text)
    {
        Fault fault = new() { Code = FaultCodes.Exception };
        fault.SetText(text);
        byte[] body = Assert.Single(Decoding.Bodies(GoldenVectorTests.Written(fault)));
        Fault read = new();
        Assert.True(read.TryRead(body, body.Length));
        return Encoding.ASCII.GetString(read.Text, 0, read.TextLength);
    }
}
