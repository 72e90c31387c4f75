using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Reporting;

/// <summary>The last word of a program that can't go on, also for a board that has no logger yet.</summary>
public static class FaultFrame
{
    /// <summary>Makes the whole frame.</summary>
    /// <param name="code">What kind, from the protocol's fault codes.</param>
    /// <param name="timeMicroseconds">Device time [µs].</param>
    /// <param name="text">Words for a person.</param>
    public static FrameWriter Make(int code, long timeMicroseconds, string text)
    {
        Fault fault = new() { Code = code, TimeMicroseconds = timeMicroseconds };
        fault.SetText(text);
        FrameWriter writer = new();
        fault.Write(writer);
        return writer;
    }
}
