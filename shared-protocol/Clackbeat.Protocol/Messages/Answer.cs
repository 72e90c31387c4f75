using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Whether a command was carried out (SPEC §5, kind 13).</summary>
public sealed class Answer : Message
{
    private const int FieldsEnd = 3;

    /// <summary>Kind of the command.</summary>
    public int Command { get; set; }

    /// <summary>What became of it, from <see cref="Results"/>.</summary>
    public int Result { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        writer.Begin(Kinds.Answer);
        writer.AppendByte((byte)Command);
        writer.AppendByte((byte)Result);
        return true;
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Answer)
        {
            return false;
        }

        Command = body[1];
        Result = body[2];
        return true;
    }
}
