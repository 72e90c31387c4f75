using Clackbeat.Logger.Board;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Messages;

namespace Clackbeat.Logger.Reporting;

/// <summary>Fills the messages a logger tells, from its settings, its state and its board. Nothing is allocated.</summary>
public sealed class MessageFiller
{
    private const string FirmwareName = "clackbeat logger";

    private readonly ILoggerBoard _board;
    private readonly IBurstStorage? _storage;
    private readonly LoggerSettings _settings;
    private readonly LoggerState _state;
    private readonly Hello _hello = new();
    private readonly Health _health = new();
    private readonly TimeMark _timeMark = new();
    private readonly Identity _identity = new();
    private readonly VersionAnswer _version = new();

    /// <summary>Makes a filler; what never changes is filled in here.</summary>
    public MessageFiller(ILoggerBoard board, IBurstStorage? storage, LoggerSettings settings, LoggerState state)
    {
        _board = board;
        _storage = storage;
        _settings = settings;
        _state = state;
        _hello.Protocol = ProtocolVersion.Number;
        _hello.Fingerprint = ProtocolVersion.Fingerprint;
        _version.Protocol = ProtocolVersion.Number;
        _version.Fingerprint = ProtocolVersion.Fingerprint;
        board.CopyDeviceId(_hello.Device);
        board.CopyDeviceId(_identity.Device);
        SetFirmware(_hello.Firmware);
        SetFirmware(_identity.Firmware);
        _health.Storage = StorageStates.None;
        _health.FreeKib = ProtocolVersion.Unknown32;
        _identity.NameLength = FirmwareName.Length;
        for (int i = 0; i < FirmwareName.Length; i++)
        {
            _identity.Name[i] = (byte)FirmwareName[i];
        }
    }

    /// <summary>Who this logger is.</summary>
    public Identity Identity => _identity;

    /// <summary>Which protocol it speaks.</summary>
    public VersionAnswer Version => _version;

    /// <summary>What the board's bench found; null before it was measured.</summary>
    public Bench? Bench { get; set; }

    /// <summary>Hello, as things stand.</summary>
    public Hello FillHello()
    {
        _hello.ChannelMask = _settings.ChannelMask;
        _hello.ConverterMax = _settings.ConverterMax;
        _hello.PeriodMicroseconds = (uint)_state.PeriodMicroseconds;
        _hello.SupplyEvery = _state.SupplyEvery;
        _hello.DeliveryEvery = _state.DeliveryEvery;
        _hello.Boot = _state.Boot;
        _hello.Burst = _state.Burst;
        _hello.Mode = _state.Mode;
        return _hello;
    }

    /// <summary>Time mark for now.</summary>
    public TimeMark FillTimeMark(long now)
    {
        _timeMark.TimeMicroseconds = now;
        _timeMark.UncertaintyMilliseconds = 0;
        _timeMark.Source = _state.Clock;
        _timeMark.CalendarMilliseconds = 0;
        if (_state.Clock != ClockSources.None)
        {
            _timeMark.CalendarMilliseconds = _state.CalendarOffsetMilliseconds + (now / 1000);
            _timeMark.UncertaintyMilliseconds = _state.CalendarUncertaintyMilliseconds;
        }

        return _timeMark;
    }

    /// <summary>Health for now.</summary>
    public Health FillHealth(long now)
    {
        _health.TimeMicroseconds = now;
        _health.Overruns = _state.Overruns;
        _health.LostSamples = _state.LostSamples;
        _health.FreeMemoryBytes = _board.FreeMemoryBytes;
        _health.SupplyCounts = _state.SupplyCounts;
        _health.BatteryCounts = _state.BatteryCounts;
        _health.DiscardedPieces = _state.DiscardedPieces & 0xFFFF;
        _health.Clock = _state.Clock;
        if (_storage != null)
        {
            _health.Storage = _storage.State;
            _health.FreeKib = _storage.FreeKib;
            _health.NewestBurst = _storage.LastBurst;
        }

        return _health;
    }

    private static void SetFirmware(byte[] firmware)
    {
        firmware[0] = LoggerSettings.FirmwareMajor;
        firmware[1] = LoggerSettings.FirmwareMinor;
        firmware[2] = LoggerSettings.FirmwarePatch;
    }
}
