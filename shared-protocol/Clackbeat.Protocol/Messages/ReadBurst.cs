using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Command that asks for a stretch of a burst (SPEC §4, kind 32).</summary>
public sealed class ReadBurst : Message
{
    private const int FieldsEnd = 9;

    /// <summary>Number of the burst.</summary>
    public uint Burst { get; set; }

    /// <summary>Offset in its file [bytes].</summary>
    public uint Offset { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.ReadBurst);
                writer.AppendU32(Burst);
                return false;
            default:
                writer.AppendU32(Offset);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.ReadBurst)
        {
            return false;
        }

        Burst = Fields.U32(body, 1);
        Offset = Fields.U32(body, 5);
        return true;
    }
}
