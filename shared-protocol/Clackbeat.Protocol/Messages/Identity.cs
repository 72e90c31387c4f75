using System;
using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>Who a logger is (SPEC §4, kind 11).</summary>
public sealed class Identity : Message
{
    private const int FieldsEnd = 12;
    private const int MaxName = FrameLimits.MaxBody - FieldsEnd;

    /// <summary>Device id.</summary>
    public byte[] Device { get; } = new byte[8];

    /// <summary>Firmware version: major, minor, patch.</summary>
    public byte[] Firmware { get; } = new byte[3];

    /// <summary>Name of the firmware, ASCII, in the first <see cref="NameLength"/> bytes.</summary>
    public byte[] Name { get; } = new byte[MaxName];

    /// <summary>Length of the name.</summary>
    public int NameLength { get; set; }

    /// <inheritdoc/>
    public override bool WriteStep(FrameWriter writer, int part)
    {
        writer.Begin(Kinds.Identity);
        writer.AppendBytes(Device, 0, 8);
        writer.AppendBytes(Firmware, 0, 3);
        writer.AppendBytes(Name, 0, NameLength);
        return true;
    }

    /// <inheritdoc/>
    public override bool TryRead(byte[] body, int length)
    {
        if (length < FieldsEnd || body[0] != Kinds.Identity)
        {
            return false;
        }

        Array.Copy(body, 1, Device, 0, 8);
        Array.Copy(body, 9, Firmware, 0, 3);
        NameLength = length - FieldsEnd;
        Array.Copy(body, FieldsEnd, Name, 0, NameLength);
        return true;
    }
}
