using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>What a board can do, measured on itself (SPEC §4, kind 2B).</summary>
public sealed class Bench : Message
{
    private const int FieldsEnd = 55;

    /// <summary>Device time when it was measured [µs].</summary>
    public long TimeMicroseconds { get; set; }

    /// <summary>Period at which it was measured [µs].</summary>
    public uint PeriodMicroseconds { get; set; }

    /// <summary>Mean time of a conversion [ns].</summary>
    public uint ConversionNanoseconds { get; set; }

    /// <summary>Mean time of a clock reading [ns].</summary>
    public uint ClockNanoseconds { get; set; }

    /// <summary>Mean time of a turn: a sample with its share of all other work [µs].</summary>
    public uint TurnMicroseconds { get; set; }

    /// <summary>Longest turn [µs].</summary>
    public uint WorstTurnMicroseconds { get; set; }

    /// <summary>Samples taken.</summary>
    public uint Samples { get; set; }

    /// <summary>Grid points without a sample.</summary>
    public uint Lost { get; set; }

    /// <summary>Standard deviation of the samples' times from the grid [ns].</summary>
    public uint JitterNanoseconds { get; set; }

    /// <summary>Handing one frame to the transmitter [µs].</summary>
    public uint SendMicroseconds { get; set; }

    /// <summary>Mean time of a block of 2 KiB on the card [µs]; <see cref="ProtocolVersion.Unknown32"/> without a card.</summary>
    public uint BlockMicroseconds { get; set; }

    /// <summary>Longest such time [µs]; <see cref="ProtocolVersion.Unknown32"/> without a card.</summary>
    public uint WorstBlockMicroseconds { get; set; }

    /// <summary>Free managed memory [bytes]; <see cref="ProtocolVersion.Unknown32"/> when unknown.</summary>
    public uint FreeMemoryBytes { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.Bench);
                return false;
            case 1:
                writer.AppendU32((uint)TimeMicroseconds);
                return false;
            case 2:
                writer.AppendU16((int)(TimeMicroseconds >> 32) & 0xFFFF);
                return false;
            case 3:
                writer.AppendU32(PeriodMicroseconds);
                return false;
            case 4:
                writer.AppendU32(ConversionNanoseconds);
                return false;
            case 5:
                writer.AppendU32(ClockNanoseconds);
                return false;
            case 6:
                writer.AppendU32(TurnMicroseconds);
                return false;
            case 7:
                writer.AppendU32(WorstTurnMicroseconds);
                return false;
            case 8:
                writer.AppendU32(Samples);
                return false;
            case 9:
                writer.AppendU32(Lost);
                return false;
            case 10:
                writer.AppendU32(JitterNanoseconds);
                return false;
            case 11:
                writer.AppendU32(SendMicroseconds);
                return false;
            case 12:
                writer.AppendU32(BlockMicroseconds);
                return false;
            case 13:
                writer.AppendU32(WorstBlockMicroseconds);
                return false;
            default:
                writer.AppendU32(FreeMemoryBytes);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Bench)
        {
            return false;
        }

        TimeMicroseconds = Fields.U48(body, 1);
        PeriodMicroseconds = Fields.U32(body, 7);
        ConversionNanoseconds = Fields.U32(body, 11);
        ClockNanoseconds = Fields.U32(body, 15);
        TurnMicroseconds = Fields.U32(body, 19);
        WorstTurnMicroseconds = Fields.U32(body, 23);
        Samples = Fields.U32(body, 27);
        Lost = Fields.U32(body, 31);
        JitterNanoseconds = Fields.U32(body, 35);
        SendMicroseconds = Fields.U32(body, 39);
        BlockMicroseconds = Fields.U32(body, 43);
        WorstBlockMicroseconds = Fields.U32(body, 47);
        FreeMemoryBytes = Fields.U32(body, 51);
        return true;
    }
}
