using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>
/// Command to sample (SPEC §5, kind 03). The command is frozen but its fields may be left out, from the end: what is
/// missing leaves the logger's own setting.
/// </summary>
public sealed class StartCommand : Message
{
    /// <summary>Period [µs]; 0 as set.</summary>
    public uint PeriodMicroseconds { get; set; }

    /// <summary>Samples to one reading of the supply; <see cref="ProtocolVersion.NotGiven16"/> as set.</summary>
    public int SupplyEvery { get; set; } = ProtocolVersion.NotGiven16;

    /// <summary>Samples to one reading of the delivery pressure; <see cref="ProtocolVersion.NotGiven16"/> as set.</summary>
    public int DeliveryEvery { get; set; } = ProtocolVersion.NotGiven16;

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        writer.Begin(Kinds.Start);
        writer.AppendU32(PeriodMicroseconds);
        writer.AppendU16(SupplyEvery);
        writer.AppendU16(DeliveryEvery);
        return true;
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < 1 || body[0] != Kinds.Start)
        {
            return false;
        }

        PeriodMicroseconds = length >= 5 ? Fields.U32(body, 1) : 0;
        SupplyEvery = length >= 7 ? Fields.U16(body, 5) : ProtocolVersion.NotGiven16;
        DeliveryEvery = length >= 9 ? Fields.U16(body, 7) : ProtocolVersion.NotGiven16;
        return true;
    }
}
