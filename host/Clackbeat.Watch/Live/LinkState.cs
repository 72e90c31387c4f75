namespace Clackbeat.Watch.Live;

/// <summary>Where the samples stand, from the first question to the end.</summary>
public enum LinkState
{
    /// <summary>Asks who is on the port.</summary>
    Asking,

    /// <summary>Samples come.</summary>
    Streaming,

    /// <summary>The logger is there and sends nothing.</summary>
    Silent,

    /// <summary>The port is gone; it is tried again and again.</summary>
    Lost,

    /// <summary>The port is there and may not be used.</summary>
    Refused,

    /// <summary>Something else is on the port.</summary>
    Wrong,

    /// <summary>A replay has come to its end.</summary>
    Ended,
}

/// <summary>What the ram is doing now.</summary>
public enum LiveState
{
    /// <summary>No sample has come yet.</summary>
    Waiting,

    /// <summary>Samples come; no beat has been seen yet.</summary>
    Listening,

    /// <summary>It beats.</summary>
    Beating,

    /// <summary>It stands still, waste valve open.</summary>
    StoppedOpen,

    /// <summary>It stands still, waste valve shut.</summary>
    StoppedShut,

    /// <summary>The reading never changes: nothing is read.</summary>
    NoSignal,
}
