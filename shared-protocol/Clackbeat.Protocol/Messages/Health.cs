using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>State of the logger (SPEC §9, kind 15).</summary>
public sealed class Health : Message
{
    private const int FieldsEnd = 35;

    /// <summary>Device time [µs].</summary>
    public long TimeMicroseconds { get; set; }

    /// <summary>How often the program came late by a whole period or more.</summary>
    public uint Overruns { get; set; }

    /// <summary>Grid points without a sample, since the start.</summary>
    public uint LostSamples { get; set; }

    /// <summary>Free managed memory [bytes].</summary>
    public uint FreeMemoryBytes { get; set; }

    /// <summary>Sensor supply [counts]; <see cref="ProtocolVersion.NotGiven16"/> when not measured.</summary>
    public int SupplyCounts { get; set; }

    /// <summary>Battery [counts]; <see cref="ProtocolVersion.NotGiven16"/> when not measured.</summary>
    public int BatteryCounts { get; set; }

    /// <summary>State of the card, from <see cref="StorageStates"/>.</summary>
    public int Storage { get; set; }

    /// <summary>Free space on the card [KiB]; <see cref="ProtocolVersion.Unknown32"/> when unknown.</summary>
    public uint FreeKib { get; set; }

    /// <summary>Number of the newest burst on the card; 0 none.</summary>
    public uint NewestBurst { get; set; }

    /// <summary>Pieces of received bytes that were no frame.</summary>
    public int DiscardedPieces { get; set; }

    /// <summary>Where the calendar comes from, from <see cref="ClockSources"/>.</summary>
    public int Clock { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.Health);
                return false;
            case 1:
                writer.AppendU32((uint)TimeMicroseconds);
                return false;
            case 2:
                writer.AppendU16((int)(TimeMicroseconds >> 32) & 0xFFFF);
                return false;
            case 3:
                writer.AppendU32(Overruns);
                return false;
            case 4:
                writer.AppendU32(LostSamples);
                return false;
            case 5:
                writer.AppendU32(FreeMemoryBytes);
                return false;
            case 6:
                writer.AppendU16(SupplyCounts);
                writer.AppendU16(BatteryCounts);
                return false;
            case 7:
                writer.AppendByte((byte)Storage);
                return false;
            case 8:
                writer.AppendU32(FreeKib);
                return false;
            case 9:
                writer.AppendU32(NewestBurst);
                return false;
            default:
                writer.AppendU16(DiscardedPieces);
                writer.AppendByte((byte)Clock);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Health)
        {
            return false;
        }

        TimeMicroseconds = Fields.U48(body, 1);
        Overruns = Fields.U32(body, 7);
        LostSamples = Fields.U32(body, 11);
        FreeMemoryBytes = Fields.U32(body, 15);
        SupplyCounts = Fields.U16(body, 19);
        BatteryCounts = Fields.U16(body, 21);
        Storage = body[23];
        FreeKib = Fields.U32(body, 24);
        NewestBurst = Fields.U32(body, 28);
        DiscardedPieces = Fields.U16(body, 32);
        Clock = body[34];
        return true;
    }
}
