namespace Clackbeat.Logger.Board;

/// <summary>What the logger's behaviour needs from the hardware under it; one implementation a board.</summary>
public interface ILoggerBoard
{
    /// <summary>The device's own clock [µs since its start]; never steps back.</summary>
    long NowMicroseconds();

    /// <summary>
    /// Reads a converter channel [counts]. Negative says "no reading": the path of every sample affords no second
    /// result.
    /// </summary>
    int ReadConverter(int channel);

    /// <summary>
    /// Sends the first bytes of a frame's buffer. The logger lets one frame drain before the next, so a transmitter
    /// that takes 120 bytes at once never waits.
    /// </summary>
    void Send(byte[] frame, int length);

    /// <summary>Takes what has been received, at most the buffer's length; returns how many bytes, 0 for none.</summary>
    int Receive(byte[] buffer);

    /// <summary>Called when nothing is to be done: may wait some 10 ms to save power.</summary>
    void Rest();

    /// <summary>
    /// Counts the free managed memory anew. On the device that is a collection and takes milliseconds: never between two
    /// samples. Nothing is allocated after the start, so the figure stands.
    /// </summary>
    void CountMemory();

    /// <summary>Free managed memory as last counted [bytes]; the protocol's "unknown" where it can't be told.</summary>
    uint FreeMemoryBytes { get; }

    /// <summary>Switches the sensor's supply; does nothing where it isn't switched.</summary>
    void PowerSensor(bool on);

    /// <summary>Why the device woke, from the protocol's wake causes.</summary>
    int WakeCause { get; }

    /// <summary>Copies the eight bytes that tell this device from others.</summary>
    void CopyDeviceId(byte[] destination);

    /// <summary>
    /// Calendar from a battery-backed clock [ms since 1970-01-01 UTC]; 0 when none is fitted or it was never set. Takes a
    /// millisecond: never between two samples.
    /// </summary>
    long CalendarMilliseconds();

    /// <summary>How far that calendar may be off, as read with it last [ms]; it grows since the clock was set.</summary>
    long CalendarUncertaintyMilliseconds { get; }

    /// <summary>Sets a battery-backed clock; false when none is fitted or it can't be set.</summary>
    bool SetCalendar(long milliseconds, long uncertaintyMilliseconds);

    /// <summary>
    /// Sleeps with all off but the timer [µs]. A device wakes by starting its program anew; where this returns, the
    /// caller ends the run and is started anew likewise.
    /// </summary>
    void DeepSleep(long microseconds);

    /// <summary>Starts the device anew; where this returns, the caller ends the run likewise.</summary>
    void Restart();
}
