namespace Clackbeat.Protocol;

/// <summary>First byte of a body (SPEC §2, §4).</summary>
public static class Kinds
{
    /// <summary>Command: who are you?</summary>
    public const byte Identify = 0x01;

    /// <summary>Command: which protocol do you speak?</summary>
    public const byte Version = 0x02;

    /// <summary>Command: sample and send.</summary>
    public const byte Start = 0x03;

    /// <summary>Command: stop sampling.</summary>
    public const byte Stop = 0x04;

    /// <summary>Command: how are you?</summary>
    public const byte AskHealth = 0x05;

    /// <summary>Command: start anew.</summary>
    public const byte Restart = 0x06;

    /// <summary>Answer to <see cref="Identify"/>.</summary>
    public const byte Identity = 0x11;

    /// <summary>Answer to <see cref="Version"/>.</summary>
    public const byte VersionAnswer = 0x12;

    /// <summary>Whether a command was carried out.</summary>
    public const byte Answer = 0x13;

    /// <summary>State of the logger, asked for or told.</summary>
    public const byte Health = 0x15;

    /// <summary>What a reader must know before samples.</summary>
    public const byte Hello = 0x20;

    /// <summary>Samples with their times.</summary>
    public const byte Samples = 0x22;

    /// <summary>Whole frames that were lost inside the logger.</summary>
    public const byte Loss = 0x23;

    /// <summary>Ties device time to the calendar.</summary>
    public const byte TimeMark = 0x25;

    /// <summary>Opens a burst of a lone logger.</summary>
    public const byte BurstStart = 0x26;

    /// <summary>Ends a burst of a lone logger.</summary>
    public const byte BurstEnd = 0x27;

    /// <summary>Something went wrong inside the logger.</summary>
    public const byte Fault = 0x28;

    /// <summary>Which bursts the card holds.</summary>
    public const byte BurstList = 0x29;

    /// <summary>A stretch of a burst's file.</summary>
    public const byte BurstData = 0x2A;

    /// <summary>What the board can do, measured on itself.</summary>
    public const byte Bench = 0x2B;

    /// <summary>Samples of a converter of more than 12 bits, with their times.</summary>
    public const byte WideSamples = 0x2C;

    /// <summary>Command: this is the calendar.</summary>
    public const byte SetCalendar = 0x30;

    /// <summary>Command: which bursts do you hold?</summary>
    public const byte ListBursts = 0x31;

    /// <summary>Command: give me a stretch of a burst.</summary>
    public const byte ReadBurst = 0x32;

    /// <summary>Command: measure what you can do.</summary>
    public const byte AskBench = 0x33;

    /// <summary>Command, and what the card keeps of it: how long and how often to record alone.</summary>
    public const byte SetSchedule = 0x34;
}
