using Clackbeat.Protocol.Messages;

namespace Clackbeat.Recording.Files;

/// <summary>Where the frames of a session came from (recording-format §3).</summary>
public enum SessionSource
{
    /// <summary>A line to a logger.</summary>
    Line = 1,

    /// <summary>A burst that a lone logger kept on its card.</summary>
    Burst = 2,
}

/// <summary>What opens a session (recording-format §3).</summary>
public sealed record SessionHeader
{
    private const int DeviceLength = 8;
    private const int FirmwareLength = 3;

    /// <summary>Where the frames came from.</summary>
    public required SessionSource Source { get; init; }

    /// <summary>Protocol version of the frames.</summary>
    public required int Protocol { get; init; }

    /// <summary>Layout fingerprint of the frames.</summary>
    public required uint Fingerprint { get; init; }

    /// <summary>Device id as hexadecimal digits.</summary>
    public required string Device { get; init; }

    /// <summary>Version of the firmware.</summary>
    public required Version Firmware { get; init; }

    /// <summary>How often the device had started; 0 where nothing remembers it.</summary>
    public uint Boot { get; init; }

    /// <summary>Number of the burst; 0 for a line.</summary>
    public uint Burst { get; init; }

    /// <summary>Period of the samples when the session began [µs].</summary>
    public uint PeriodMicroseconds { get; init; }

    /// <summary>Samples to one reading of the supply; 0 none.</summary>
    public int SupplyEvery { get; init; }

    /// <summary>Samples to one reading of the delivery pressure; 0 none.</summary>
    public int DeliveryEvery { get; init; }

    /// <summary>Largest count of the converter.</summary>
    public required int ConverterMax { get; init; }

    /// <summary>Version of the program that wrote the session.</summary>
    public required string Program { get; init; }

    /// <summary>The port or file the frames came from.</summary>
    public required string Place { get; init; }

    /// <summary>The header for a logger that said hello.</summary>
    public static SessionHeader Of(Hello hello, SessionSource source, string program, string place) => new()
    {
        Source = source,
        Protocol = hello.Protocol,
        Fingerprint = hello.Fingerprint,
        Device = DeviceOf(hello),
        Firmware = new Version(hello.Firmware[0], hello.Firmware[1], hello.Firmware[2]),
        Boot = hello.Boot,
        Burst = hello.Burst,
        PeriodMicroseconds = hello.PeriodMicroseconds,
        SupplyEvery = hello.SupplyEvery,
        DeliveryEvery = hello.DeliveryEvery,
        ConverterMax = hello.ConverterMax,
        Program = program,
        Place = place,
    };

    /// <summary>A logger's id as hexadecimal digits.</summary>
    public static string DeviceOf(Hello hello) => Convert.ToHexStringLower(hello.Device);

    internal void Write(PayloadWriter payload)
    {
        payload.U8((int)Source);
        payload.U16(Protocol);
        payload.U32(Fingerprint);
        payload.Bytes(Convert.FromHexString(Device));
        payload.Bytes([(byte)Firmware.Major, (byte)Firmware.Minor, (byte)Math.Max(0, Firmware.Build)]);
        payload.U32(Boot);
        payload.U32(Burst);
        payload.U32(PeriodMicroseconds);
        payload.U16(SupplyEvery);
        payload.U16(DeliveryEvery);
        payload.U16(ConverterMax);
        payload.Text(Program);
        payload.Text(Place);
    }

    internal static SessionHeader? TryRead(ReadOnlySpan<byte> bytes)
    {
        PayloadReader payload = new(bytes);
        var source = (SessionSource)payload.U8();
        int protocol = payload.U16();
        uint fingerprint = payload.U32();
        string device = Convert.ToHexStringLower(payload.Bytes(DeviceLength));
        ReadOnlySpan<byte> firmware = payload.Bytes(FirmwareLength);
        SessionHeader header = new()
        {
            Source = source,
            Protocol = protocol,
            Fingerprint = fingerprint,
            Device = device,
            Firmware = new Version(firmware[0], firmware[1], firmware[2]),
            Boot = payload.U32(),
            Burst = payload.U32(),
            PeriodMicroseconds = payload.U32(),
            SupplyEvery = payload.U16(),
            DeliveryEvery = payload.U16(),
            ConverterMax = payload.U16(),
            Program = payload.Text(),
            Place = payload.Text(),
        };
        return payload.Ok ? header : null;
    }
}
