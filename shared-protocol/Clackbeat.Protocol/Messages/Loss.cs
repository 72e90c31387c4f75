using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Whole frames that were lost inside the logger (SPEC §7, kind 23).</summary>
public sealed class Loss : Message
{
    private const int FieldsEnd = 22;

    /// <summary>Why, from <see cref="LossReasons"/>.</summary>
    public int Reason { get; set; }

    /// <summary>Samples in them.</summary>
    public uint Samples { get; set; }

    /// <summary>How many frames.</summary>
    public uint Frames { get; set; }

    /// <summary>First grid point of the first of them [µs].</summary>
    public long FirstMicroseconds { get; set; }

    /// <summary>Last grid point of the last of them [µs].</summary>
    public long LastMicroseconds { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.Loss);
                writer.AppendByte((byte)Reason);
                return false;
            case 1:
                writer.AppendU32(Samples);
                return false;
            case 2:
                writer.AppendU32(Frames);
                return false;
            case 3:
                writer.AppendU32((uint)FirstMicroseconds);
                return false;
            case 4:
                writer.AppendU16((int)(FirstMicroseconds >> 32) & 0xFFFF);
                return false;
            case 5:
                writer.AppendU32((uint)LastMicroseconds);
                return false;
            default:
                writer.AppendU16((int)(LastMicroseconds >> 32) & 0xFFFF);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Loss)
        {
            return false;
        }

        Reason = body[1];
        Samples = Fields.U32(body, 2);
        Frames = Fields.U32(body, 6);
        FirstMicroseconds = Fields.U48(body, 10);
        LastMicroseconds = Fields.U48(body, 16);
        return true;
    }
}
