using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Tests;

/// <summary>Bytes in, bodies of good frames out.</summary>
internal static class Decoding
{
    public static List<byte[]> Bodies(params byte[][] pieces)
    {
        FrameDecoder decoder = new();
        List<byte[]> bodies = [];
        foreach (byte value in pieces.SelectMany(p => p))
        {
            if (decoder.Push(value))
            {
                bodies.Add(decoder.Body[..decoder.BodyLength]);
            }
        }

        return bodies;
    }

    public static byte[] Frame(byte[] body)
    {
        FrameWriter writer = new();
        writer.Begin(body[0]);
        writer.AppendBytes(body, 1, body.Length - 1);
        writer.End();
        return writer.Buffer[..writer.Length];
    }
}
