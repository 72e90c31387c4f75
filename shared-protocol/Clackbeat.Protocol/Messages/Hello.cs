using System;
using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>What a reader must know before it can take samples (SPEC §4, kind 20).</summary>
public sealed class Hello : Message
{
    private const int FieldsEnd = 38;

    /// <summary>Protocol version.</summary>
    public int Protocol { get; set; }

    /// <summary>Layout fingerprint.</summary>
    public uint Fingerprint { get; set; }

    /// <summary>Firmware version: major, minor, patch.</summary>
    public byte[] Firmware { get; } = new byte[3];

    /// <summary>Device id.</summary>
    public byte[] Device { get; } = new byte[8];

    /// <summary>Bit n set: channel n is fitted.</summary>
    public int ChannelMask { get; set; }

    /// <summary>Largest count of the converter.</summary>
    public int ConverterMax { get; set; }

    /// <summary>Nominal period of the grid [µs].</summary>
    public uint PeriodMicroseconds { get; set; }

    /// <summary>Samples to one reading of the supply; 0 none.</summary>
    public int SupplyEvery { get; set; }

    /// <summary>Samples to one reading of the delivery pressure; 0 none.</summary>
    public int DeliveryEvery { get; set; }

    /// <summary>How often the device has started.</summary>
    public uint Boot { get; set; }

    /// <summary>Number of the burst; 0 when not alone.</summary>
    public uint Burst { get; set; }

    /// <summary>What the logger is doing, from <see cref="Modes"/>.</summary>
    public int Mode { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        switch (part)
        {
            case 0:
                writer.Begin(Kinds.Hello);
                writer.AppendU16(Protocol);
                return false;
            case 1:
                writer.AppendU32(Fingerprint);
                return false;
            case 2:
                writer.AppendBytes(Firmware, 0, 3);
                return false;
            case 3:
                writer.AppendBytes(Device, 0, 4);
                return false;
            case 4:
                writer.AppendBytes(Device, 4, 4);
                return false;
            case 5:
                writer.AppendByte((byte)ChannelMask);
                writer.AppendU16(ConverterMax);
                return false;
            case 6:
                writer.AppendU32(PeriodMicroseconds);
                return false;
            case 7:
                writer.AppendU16(SupplyEvery);
                writer.AppendU16(DeliveryEvery);
                return false;
            case 8:
                writer.AppendU32(Boot);
                return false;
            default:
                writer.AppendU32(Burst);
                writer.AppendByte((byte)Mode);
                return true;
        }
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Hello)
        {
            return false;
        }

        Protocol = Fields.U16(body, 1);
        Fingerprint = Fields.U32(body, 3);
        Array.Copy(body, 7, Firmware, 0, 3);
        Array.Copy(body, 10, Device, 0, 8);
        ChannelMask = body[18];
        ConverterMax = Fields.U16(body, 19);
        PeriodMicroseconds = Fields.U32(body, 21);
        SupplyEvery = Fields.U16(body, 25);
        DeliveryEvery = Fields.U16(body, 27);
        Boot = Fields.U32(body, 29);
        Burst = Fields.U32(body, 33);
        Mode = body[37];
        return true;
    }
}
