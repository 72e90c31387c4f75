using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;

namespace Clackbeat.Fuzz;

/// <summary>
/// The wire: bytes through the frame decoder, each good body through every message and the sample reader. The first
/// byte of the input says whether its pieces get a right CRC before, without which no mutation would come past it.
/// </summary>
internal static class FrameTarget
{
    private static readonly Message[] Messages =
    [
        new Identity(), new VersionAnswer(), new Hello(), new Answer(), new BurstStart(), new BurstEnd(), new Loss(), new Health(),
        new TimeMark(), new Fault(), new BurstList(), new BurstData(), new ReadBurst(), new SetCalendar(), new SetSchedule(), new StartCommand(),
    ];

    private static readonly FrameWriter Writer = new();

    private static readonly SampleFrameReader Samples = new();

    public static void Run(byte[] input)
    {
        byte[] line = input.Length > 0 && (input[0] & 1) == 1 ? Mended.Line(input.AsSpan(1)) : input;
        FrameDecoder decoder = new();
        long good = 0;
        foreach (byte value in line)
        {
            if (decoder.Push(value))
            {
                good += decoder.BodyLength;
                Take(decoder.Body, decoder.BodyLength);
            }
        }

        // Stuffing, CRC and delimiters only ever shrink on the way.
        BrokenPromiseException.Unless(
            good + decoder.DiscardedBytes + decoder.PendingBytes <= line.Length, "more bytes were counted than came");
    }

    private static void Take(byte[] body, int length)
    {
        BrokenPromiseException.Unless(length is >= 1 and <= FrameLimits.MaxBody, "a body has an impossible length");
        foreach (Message message in Messages)
        {
            if (message.TryRead(body, length))
            {
                message.Write(Writer);
            }
        }

        if (!Samples.TryOpen(body, length))
        {
            return;
        }

        int entries = 0;
        while (Samples.Next())
        {
            BrokenPromiseException.Unless(++entries <= length, "a frame has more entries than bytes");
        }
    }
}
