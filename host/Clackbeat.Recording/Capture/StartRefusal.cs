using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Recording.Capture;

/// <summary>Says why a logger refused to start.</summary>
internal static class StartRefusal
{
    public static string Words(string name, int result, StartCommand command) => result == Results.OutOfRange
        ? $"The logger on {name} refuses to start: a period of {command.PeriodMicroseconds} µs is not one it can keep. Ask for "
            + $"{ProtocolVersion.MinPeriodMicroseconds} to {ProtocolVersion.MaxPeriodMicroseconds} µs (1 to 5000 samples a second)."
        : $"The logger on {name} refuses to start (result {result}). Restart it, and put the firmware that came with this "
            + "program on it if that does not help.";
}
