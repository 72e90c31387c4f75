using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Opens a burst (SPEC §8, kind 26).</summary>
public sealed class BurstStart : Message
{
    private const int FieldsEnd = 28;

    /// <summary>Number of the burst, from 1.</summary>
    public uint Burst { get; set; }

    /// <summary>How often the device has started.</summary>
    public uint Boot { get; set; }

    /// <summary>Device time [µs].</summary>
    public long TimeMicroseconds { get; set; }

    /// <summary>Sleep that was asked for before this burst [ms]; 0 none.</summary>
    public uint SleptMilliseconds { get; set; }

    /// <summary>Planned length [ms].</summary>
    public uint LengthMilliseconds { get; set; }

    /// <summary>Planned time from start to start [ms].</summary>
    public uint IntervalMilliseconds { get; set; }

    /// <summary>Why the device woke, from <see cref="WakeCauses"/>.</summary>
    public int Wake { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.BurstStart);
                writer.AppendU32(Burst);
                return false;
            case 1:
                writer.AppendU32(Boot);
                return false;
            case 2:
                writer.AppendU48(TimeMicroseconds);
                return false;
            case 3:
                writer.AppendU32(SleptMilliseconds);
                return false;
            case 4:
                writer.AppendU32(LengthMilliseconds);
                return false;
            default:
                writer.AppendU32(IntervalMilliseconds);
                writer.AppendByte((byte)Wake);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.BurstStart)
        {
            return false;
        }

        Burst = Fields.U32(body, 1);
        Boot = Fields.U32(body, 5);
        TimeMicroseconds = Fields.U48(body, 9);
        SleptMilliseconds = Fields.U32(body, 15);
        LengthMilliseconds = Fields.U32(body, 19);
        IntervalMilliseconds = Fields.U32(body, 23);
        Wake = body[27];
        return true;
    }
}
