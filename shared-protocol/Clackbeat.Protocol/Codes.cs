namespace Clackbeat.Protocol;

/// <summary>Channels of a logger (SPEC §6).</summary>
public static class Channels
{
    /// <summary>Pressure at the ram's body.</summary>
    public const int Pressure = 0;

    /// <summary>Supply of the sensor, for ratiometric correction.</summary>
    public const int Supply = 1;

    /// <summary>Delivery pressure.</summary>
    public const int Delivery = 2;

    /// <summary>Battery of a lone logger.</summary>
    public const int Battery = 3;
}

/// <summary>Why samples are missing (SPEC §7).</summary>
public static class LossReasons
{
    /// <summary>The program came late.</summary>
    public const byte Overrun = 1;

    /// <summary>The line could not take a frame in time.</summary>
    public const byte Line = 2;

    /// <summary>The card could not take a frame, or not in time.</summary>
    public const byte Card = 3;

    /// <summary>The converter gave no reading.</summary>
    public const byte Converter = 4;

    /// <summary>A command was carried out.</summary>
    public const byte Command = 5;
}

/// <summary>What became of a command (SPEC §5).</summary>
public static class Results
{
    /// <summary>Carried out.</summary>
    public const byte Done = 0;

    /// <summary>Not known to this logger.</summary>
    public const byte Unknown = 1;

    /// <summary>An argument is out of range.</summary>
    public const byte OutOfRange = 2;

    /// <summary>Not possible now.</summary>
    public const byte NotNow = 3;
}

/// <summary>State of the card (SPEC §9).</summary>
public static class StorageStates
{
    /// <summary>No card reader fitted.</summary>
    public const byte None = 0;

    /// <summary>Ready.</summary>
    public const byte Ready = 1;

    /// <summary>Full; nothing is overwritten.</summary>
    public const byte Full = 2;

    /// <summary>Writing fails.</summary>
    public const byte Failing = 3;

    /// <summary>The card is missing.</summary>
    public const byte Missing = 4;
}

/// <summary>Where the logger's calendar comes from (SPEC §8, §9).</summary>
public static class ClockSources
{
    /// <summary>None: the device only counts.</summary>
    public const byte None = 0;

    /// <summary>A host told it.</summary>
    public const byte Host = 1;

    /// <summary>A battery-backed clock.</summary>
    public const byte Battery = 2;
}

/// <summary>What the logger is doing (SPEC §9).</summary>
public static class Modes
{
    /// <summary>Waits for commands.</summary>
    public const byte Idle = 0;

    /// <summary>Samples for a host.</summary>
    public const byte Streaming = 1;

    /// <summary>Records bursts by itself.</summary>
    public const byte Alone = 2;
}

/// <summary>Why the device woke (SPEC §9).</summary>
public static class WakeCauses
{
    /// <summary>Power came, or a reset.</summary>
    public const byte Power = 0;

    /// <summary>The timer of its own sleep.</summary>
    public const byte Timer = 1;

    /// <summary>Anything else.</summary>
    public const byte Other = 2;
}

/// <summary>What went wrong (SPEC §9).</summary>
public static class FaultCodes
{
    /// <summary>An exception ended the program.</summary>
    public const byte Exception = 1;

    /// <summary>The storage failed.</summary>
    public const byte Storage = 2;

    /// <summary>A setting is out of range.</summary>
    public const byte Setting = 3;
}
