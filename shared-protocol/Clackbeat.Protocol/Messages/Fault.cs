using System;
using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Something went wrong inside the logger (SPEC §9, kind 28).</summary>
public sealed class Fault : Message
{
    private const int FieldsEnd = 8;

    /// <summary>Longest text [bytes].</summary>
    public const int MaxText = 80;

    /// <summary>What kind, from <see cref="FaultCodes"/>.</summary>
    public int Code { get; set; }

    /// <summary>Device time [µs].</summary>
    public long TimeMicroseconds { get; set; }

    /// <summary>Words for a person, ASCII, in the first <see cref="TextLength"/> bytes.</summary>
    public byte[] Text { get; } = new byte[FrameLimits.MaxBody - FieldsEnd];

    /// <summary>Length of the text.</summary>
    public int TextLength { get; private set; }

    /// <summary>Sets the text, cut to <see cref="MaxText"/>; a character outside ASCII becomes a question mark.</summary>
    public void SetText(string text)
    {
        TextLength = text.Length < MaxText ? text.Length : MaxText;
        for (int i = 0; i < TextLength; i++)
        {
            char c = text[i];
            Text[i] = c >= ' ' && c <= '~' ? (byte)c : (byte)'?';
        }
    }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        writer.Begin(Kinds.Fault);
        writer.AppendByte((byte)Code);
        writer.AppendU48(TimeMicroseconds);
        writer.AppendBytes(Text, 0, TextLength);
        return true;
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Fault)
        {
            return false;
        }

        Code = body[1];
        TimeMicroseconds = Fields.U48(body, 2);
        TextLength = length - FieldsEnd;
        Array.Copy(body, FieldsEnd, Text, 0, TextLength);
        return true;
    }
}
