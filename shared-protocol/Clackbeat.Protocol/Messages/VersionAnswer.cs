using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Which protocol a logger speaks (SPEC §4, kind 12).</summary>
public sealed class VersionAnswer : Message
{
    private const int FieldsEnd = 7;

    /// <summary>Protocol version.</summary>
    public int Protocol { get; set; }

    /// <summary>Layout fingerprint.</summary>
    public uint Fingerprint { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        writer.Begin(Kinds.VersionAnswer);
        writer.AppendU16(Protocol);
        writer.AppendU32(Fingerprint);
        return true;
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.VersionAnswer)
        {
            return false;
        }

        Protocol = Fields.U16(body, 1);
        Fingerprint = Fields.U32(body, 3);
        return true;
    }
}
