using Clackbeat.Protocol.Framing;

namespace Clackbeat.Protocol.Messages;

/// <summary>
/// A frame of fixed fields (SPEC §4), used again and again: reading fills it, writing goes in steps of a few bytes so
/// that a logger can spread them between samples.
/// </summary>
public abstract class Message
{
    /// <summary>Writes the part of the body that belongs to a step, counted from 0; true when it was the last.</summary>
    public abstract bool WriteStep(FrameWriter writer, int part);

    /// <summary>Takes the fields from a body; false when it is of another kind or too short (SPEC §3.2).</summary>
    public abstract bool TryRead(byte[] body, int length);

    /// <summary>Writes the whole frame.</summary>
    public void Write(FrameWriter writer)
    {
        int part = 0;
        while (!WriteStep(writer, part))
        {
            part++;
        }

        writer.End();
    }
}
