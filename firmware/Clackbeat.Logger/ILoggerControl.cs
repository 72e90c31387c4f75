using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger;

/// <summary>What commands may do to the logger.</summary>
public interface ILoggerControl
{
    /// <summary>Starts sampling for a host; the result is one of the protocol's.</summary>
    int Start(StartCommand command);

    /// <summary>Stops sampling.</summary>
    void Stop();

    /// <summary>Measures what the board can do; null while it samples.</summary>
    Bench? Measure();

    /// <summary>Sets how long and how often to record alone; the result is one of the protocol's.</summary>
    int SetSchedule(SetSchedule schedule);

    /// <summary>Has the device start anew once the answer has left.</summary>
    void RequestRestart();
}
