using Clackbeat.Logger.Board;
using Clackbeat.Logger.Reporting;
using Clackbeat.Logger.Sampling;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;

namespace Clackbeat.Logger.Alone;

/// <summary>
/// Records by itself (SPEC §10): wake, one burst into one file, close it, sleep. It never overwrites; a card that is
/// full, worn or missing costs bursts, said in health, and the schedule goes on for the day it is changed.
/// </summary>
public sealed class LoneKeeper
{
    // A number whose file can't be created (damage, a leftover) is passed over; more than a few mean a bad card.
    private const int NumbersToTry = 4;
    private const int RefusedToGiveUp = 8;

    // Hello, time mark, health, loss record and what opens a file: whole frames, rounded up.
    private const int ReportBytes = 4 * FrameLimits.MaxFrame;

    private const long ShortestSleepMicroseconds = 1_000_000;

    // How long a host may wait for its answer while a burst runs.
    private const long SliceMicroseconds = 100_000;

    // A loss of power costs a long burst at most this much of its end. Bursts up to this long are written without a
    // pause for the card, and closed.
    private const long FlushEveryMicroseconds = 60_000_000;

    // The battery is looked at so often in a burst; a dip of one reading is the card's current, not an empty battery.
    private const long BatteryEveryMicroseconds = 1_000_000;
    private const int LowToStop = 3;

    private readonly ILoggerBoard _board;
    private readonly IBurstStorage _storage;
    private readonly LoggerSettings _settings;
    private readonly LoggerState _state;
    private readonly Sampler _sampler;
    private readonly Reporter _reporter;
    private readonly CommandHandler _commands;
    private readonly LoneMemory _memory;
    private readonly LoneSchedule _schedule;
    private readonly CardSink _sink;
    private readonly FrameWriter _writer = new();
    private readonly BurstStart _burstStart = new();
    private readonly BurstEnd _burstEnd = new();
    private long _wokeAt;
    private uint _slept;
    private bool _remembers;

    /// <summary>Makes the keeper over the parts of a logger.</summary>
    public LoneKeeper(
        ILoggerBoard board,
        IBurstStorage storage,
        LoggerSettings settings,
        LoggerState state,
        Sampler sampler,
        Reporter reporter,
        CommandHandler commands)
    {
        _board = board;
        _storage = storage;
        _settings = settings;
        _state = state;
        _sampler = sampler;
        _reporter = reporter;
        _commands = commands;
        _memory = new LoneMemory(storage);
        _schedule = new LoneSchedule(storage, settings);
        _sink = new CardSink(storage);
    }

    /// <summary>The file of the running burst.</summary>
    public IFrameSink Sink => _sink;

    /// <summary>After a start of the device: reads what is remembered and counts the boot.</summary>
    public void Wake()
    {
        _wokeAt = _board.NowMicroseconds();
        IsReady();
    }

    /// <summary>How long and how often to record from the next burst on; the result is one of the protocol's.</summary>
    public int SetSchedule(SetSchedule schedule) => _schedule.SetSchedule(schedule);

    /// <summary>Records one burst; false when a host spoke up and ended it.</summary>
    public bool RecordBurst()
    {
        while (_board.NowMicroseconds() < _wokeAt + (_settings.SensorSettleMilliseconds * 1000L))
        {
            _board.Rest();
        }

        if (IsBatteryLow() || !TryBegin())
        {
            return true;
        }

        uint samples = _state.Samples;
        uint lost = _state.LostSamples;
        bool whole = Sample();
        _storage.UseEndRoom();
        _sampler.Stop();
        _reporter.TellAll(_sink);
        _burstEnd.Burst = _memory.Last.Burst;
        _burstEnd.TimeMicroseconds = _board.NowMicroseconds();
        _burstEnd.Samples = _state.Samples - samples;
        _burstEnd.Lost = _state.LostSamples - lost;
        _burstEnd.SleepMilliseconds = whole ? (uint)(TimeToSleep() / 1000) : 0;
        Write(_burstEnd);
        _reporter.Queue(Reporter.Health | Reporter.Loss);
        _reporter.TellAll(_sink);
        _storage.End();
        if (_state.Mode == Modes.Alone)
        {
            _state.Mode = Modes.Idle;
        }

        if (!whole)
        {
            // What the host asked for may have gone into the file.
            _reporter.Queue(Reporter.Hello);
        }

        return whole;
    }

    /// <summary>Sleeps until the next burst is due, and remembers how long it asked to.</summary>
    public void Sleep()
    {
        long sleep = TimeToSleep();
        Remember((uint)(sleep / 1000));
        _board.PowerSensor(false);
        _board.DeepSleep(sleep);
    }

    // A card may come later than the logger: what it remembers is looked at when it is there.
    private bool IsReady()
    {
        if (!_storage.Open())
        {
            return false;
        }

        if (!_remembers)
        {
            _remembers = true;
            _memory.Load();
            _schedule.Load();

            // Sleep asked for counts only when the timer ended it; after a loss of power nobody knows how long it was.
            _slept = _board.WakeCause == WakeCauses.Timer ? _memory.Last.SleptMilliseconds : 0;
            _memory.Last.Boot++;
            _state.Boot = _memory.Last.Boot;
            _storage.FindLast(_memory.Last.Burst);
            if (_board.WakeCause != WakeCauses.Timer)
            {
                // A keeper who comes to look wants to hear of a full card at once.
                _storage.Probe(ExpectedBytes());
            }

            Remember(sleepMilliseconds: 0);
        }

        return true;
    }

    private bool TryBegin()
    {
        if (!IsReady())
        {
            return false;
        }

        uint before = _memory.Last.Burst;
        uint number = before > _storage.LastBurst ? before : _storage.LastBurst;
        for (int i = 0; i < NumbersToTry && _storage.State != StorageStates.Full; i++)
        {
            number++;
            if (_storage.Begin(number, ExpectedBytes()))
            {
                _memory.Last.Burst = number;
                Remember(sleepMilliseconds: 0);
                OpenFile();
                return true;
            }
        }

        return false;
    }

    // The frames that open a file.
    private void OpenFile()
    {
        _sink.Reset();
        _state.Burst = _memory.Last.Burst;
        _state.Mode = Modes.Alone;
        _state.Apply(_settings);
        _burstStart.Burst = _state.Burst;
        _burstStart.Boot = _state.Boot;
        _burstStart.TimeMicroseconds = _board.NowMicroseconds();
        _burstStart.SleptMilliseconds = _slept;
        _burstStart.LengthMilliseconds = (uint)_settings.BurstLengthMilliseconds;
        _burstStart.IntervalMilliseconds = (uint)_settings.BurstIntervalMilliseconds;
        _burstStart.Wake = _board.WakeCause;
        _slept = 0;
        _reporter.Queue(Reporter.Hello);
        _reporter.TellAll(_sink);
        Write(_burstStart);
        _reporter.Queue(Reporter.TimeMark | Reporter.Bench);
        _reporter.TellAll(_sink);
    }

    // How long a burst's file becomes when every sample comes in time: what must be free on the card before it begins.
    private int ExpectedBytes()
    {
        long points = _settings.BurstLengthMilliseconds * 1000L / _settings.PeriodMicroseconds;
        long readings = (_settings.SupplyEvery > 0 ? points / _settings.SupplyEvery : 0)
            + (_settings.DeliveryEvery > 0 ? points / _settings.DeliveryEvery : 0);
        long reports = 1 + (_settings.BurstLengthMilliseconds / _settings.ReportEveryMilliseconds);
        long bytes = SampleFrameWriter.BytesFor(points, readings, _settings.IsWide) + (reports * ReportBytes);
        return bytes < int.MaxValue / 2 ? (int)bytes : int.MaxValue / 2;
    }

    private bool Sample()
    {
        int heard = _commands.Heard;
        long now = _board.NowMicroseconds();
        long end = now + (_settings.BurstLengthMilliseconds * 1000L);
        long flush = now + FlushEveryMicroseconds;
        long battery = now + BatteryEveryMicroseconds;
        int low = 0;
        _sampler.Start(
            _sink, _state.PeriodMicroseconds, _state.SupplyEvery, _state.DeliveryEvery);
        while (_sampler.DueMicroseconds < end && _sink.Refused < RefusedToGiveUp)
        {
            long slice = _sampler.DueMicroseconds + SliceMicroseconds;
            _sampler.Run(slice < end ? slice : end);
            if (_commands.Heard != heard)
            {
                return false;
            }

            if (_sampler.DueMicroseconds >= battery)
            {
                battery += BatteryEveryMicroseconds;
                low = IsBatteryLow() ? low + 1 : 0;
                if (low == LowToStop)
                {
                    // The file is closed while there is still current to close it with.
                    return true;
                }
            }

            if (_sampler.DueMicroseconds >= flush && flush < end)
            {
                flush += FlushEveryMicroseconds;
                _sampler.Excuse(LossReasons.Card);
                _storage.Flush();
            }
        }

        return true;
    }

    private bool IsBatteryLow()
    {
        if ((_settings.ChannelMask & (1 << Channels.Battery)) == 0)
        {
            return false;
        }

        int counts = _board.ReadConverter(Channels.Battery);
        if (counts < 0)
        {
            return false;
        }

        _state.BatteryCounts = counts;
        return counts < _settings.BatteryCutOffCounts;
    }

    // From the wake-up on, bursts are an interval apart, whatever a visit took meanwhile.
    private long TimeToSleep()
    {
        long interval = _settings.BurstIntervalMilliseconds * 1000L;
        long sleep = interval - ((_board.NowMicroseconds() - _wokeAt) % interval);
        return sleep < ShortestSleepMicroseconds ? sleep + interval : sleep;
    }

    private void Remember(uint sleepMilliseconds)
    {
        if (!_remembers)
        {
            return;
        }

        _memory.Last.TimeMicroseconds = _board.NowMicroseconds();
        _memory.Last.SleptMilliseconds = sleepMilliseconds;
        _memory.Save();
    }

    private void Write(Message message)
    {
        message.Write(_writer);
        _sink.Take(_writer.Buffer, _writer.Length, _board.NowMicroseconds());
    }
}
