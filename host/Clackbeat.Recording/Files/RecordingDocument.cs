using System.Text;

namespace Clackbeat.Recording.Files;

/// <summary>What a text in a recording is (recording-format §4).</summary>
public enum DocumentRole
{
    /// <summary>The site file.</summary>
    Site = 1,

    /// <summary>The calibration of sensor and converter.</summary>
    Calibration = 2,

    /// <summary>What somebody at the ram did while it was recorded; the block says when.</summary>
    Mark = 3,
}

/// <summary>A text that travels in a recording.</summary>
/// <param name="Role">What it is.</param>
/// <param name="Name">Name of the file it came from.</param>
/// <param name="Text">The whole text.</param>
public sealed record RecordingDocument(DocumentRole Role, string Name, string Text)
{
    internal void Write(PayloadWriter payload)
    {
        payload.U8((int)Role);
        payload.Text(Name);
        payload.Bytes(Encoding.UTF8.GetBytes(Text));
    }

    internal static RecordingDocument? TryRead(ReadOnlySpan<byte> bytes)
    {
        PayloadReader payload = new(bytes);
        var role = (DocumentRole)payload.U8();
        string name = payload.Text();
        return payload.Ok ? new RecordingDocument(role, name, Encoding.UTF8.GetString(payload.Rest)) : null;
    }
}
