using System;
using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>A stretch of a burst's file (SPEC §5, kind 2A).</summary>
public sealed class BurstData : Message
{
    private const int FieldsEnd = 13;

    /// <summary>Longest stretch [bytes].</summary>
    public const int MaxData = 96;

    /// <summary>Number of the burst.</summary>
    public uint Burst { get; set; }

    /// <summary>Offset of the stretch in the file [bytes].</summary>
    public uint Offset { get; set; }

    /// <summary>Length of the file [bytes].</summary>
    public uint Total { get; set; }

    /// <summary>The stretch, in the first <see cref="DataLength"/> bytes.</summary>
    public byte[] Data { get; } = new byte[FrameLimits.MaxBody - FieldsEnd];

    /// <summary>Length of the stretch [bytes].</summary>
    public int DataLength { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        writer.Begin(Kinds.BurstData);
        writer.AppendU32(Burst);
        writer.AppendU32(Offset);
        writer.AppendU32(Total);
        writer.AppendBytes(Data, 0, DataLength);
        return true;
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.BurstData)
        {
            return false;
        }

        Burst = Fields.U32(body, 1);
        Offset = Fields.U32(body, 5);
        Total = Fields.U32(body, 9);
        DataLength = length - FieldsEnd;
        Array.Copy(body, FieldsEnd, Data, 0, DataLength);
        return true;
    }
}
