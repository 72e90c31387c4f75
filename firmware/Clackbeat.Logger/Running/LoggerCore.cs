using System;
using Clackbeat.Logger.Alone;
using Clackbeat.Logger.Board;
using Clackbeat.Logger.Measuring;
using Clackbeat.Logger.Reporting;
using Clackbeat.Logger.Sampling;
using Clackbeat.Protocol;
using Clackbeat.Protocol.Framing;
using Clackbeat.Protocol.Messages;
using Clackbeat.Protocol.Samples;

namespace Clackbeat.Logger.Running;

/// <summary>
/// The logger's whole behaviour from one start of the device to the next. One thread, no device in it; everything is
/// allocated here and in the constructors below, nothing afterwards.
/// </summary>
public sealed class LoggerCore : ILoggerControl, IChores
{
    // While a host streams, its silence and a wish to restart are looked at this often.
    private const long SliceMicroseconds = 1_000_000;

    private readonly ILoggerBoard _board;
    private readonly LoggerSettings _settings;
    private readonly LoggerState _state = new();
    private readonly Reporter _reporter;
    private readonly CommandHandler _commands;
    private readonly LineSink _line;
    private readonly Sampler _sampler;
    private readonly LoneKeeper? _lone;
    private readonly LoggerBench _bench;
    private readonly MessageFiller _filler;
    private IFrameSink _reportSink;
    private long _nextReport;
    private bool _restart;
    private bool _isMeasuring;

    /// <summary>Makes a logger on a board.</summary>
    /// <param name="board">The hardware.</param>
    /// <param name="settings">How to work until a host says otherwise; a host may ask for another period and other readings.</param>
    /// <param name="storage">Where lone bursts go; null where none is fitted.</param>
    public LoggerCore(ILoggerBoard board, LoggerSettings settings, IBurstStorage? storage)
    {
        _board = board;
        _settings = settings;
        _state.Apply(settings);
        LossBook losses = new(_state);
        _filler = new MessageFiller(board, storage, settings, _state);
        _reporter = new Reporter(board, _filler, losses);
        _commands = new CommandHandler(board, storage, this, _state, _filler, _reporter);
        _line = new LineSink(board, settings.Baud);
        _reportSink = _line;
        _sampler = new Sampler(board, _state, losses, this, _line, settings.IsWide);
        _bench = new LoggerBench(board, storage, settings, this);
        if (storage != null)
        {
            _lone = new LoneKeeper(board, storage, settings, _state, _sampler, _reporter, _commands);
        }
    }

    /// <summary>
    /// Runs until the device starts anew. On hardware this never returns; elsewhere the caller then makes a new core.
    /// Nothing may escape on the device, where an unhandled exception says nothing: a fault frame tells it.
    /// </summary>
    public void Run()
    {
        try
        {
            if (Serve())
            {
                return;
            }
        }
        catch (Exception e)
        {
            TellFault(FaultCodes.Exception, e.Message ?? "no message");
        }

        _board.Restart();
    }

    /// <inheritdoc/>
    public int Start(StartCommand command)
    {
        long period = command.PeriodMicroseconds == 0 ? _settings.PeriodMicroseconds : command.PeriodMicroseconds;
        int supplyEvery = command.SupplyEvery == ProtocolVersion.NotGiven16 ? _settings.SupplyEvery : command.SupplyEvery;
        int deliveryEvery = command.DeliveryEvery == ProtocolVersion.NotGiven16 ? _settings.DeliveryEvery : command.DeliveryEvery;
        if (period < ProtocolVersion.MinPeriodMicroseconds || period > ProtocolVersion.MaxPeriodMicroseconds
            || period < SampleFrameWriter.LeastPeriodMicroseconds(_settings.Baud, supplyEvery, deliveryEvery, _settings.IsWide))
        {
            return Results.OutOfRange;
        }

        _sampler.Stop();
        _state.Apply(_settings);
        _state.PeriodMicroseconds = (int)period;
        _state.SupplyEvery = supplyEvery;
        _state.DeliveryEvery = deliveryEvery;
        _state.Mode = Modes.Streaming;
        _state.Burst = 0;
        return Results.Done;
    }

    /// <inheritdoc/>
    public void Stop()
    {
        _sampler.Stop();
        _state.Mode = Modes.Idle;
    }

    /// <inheritdoc/>
    public Bench? Measure()
    {
        if (_sampler.IsRunning)
        {
            return null;
        }

        // What was lost before is told first: what a stream reports goes nowhere while it is measured, but is made.
        _reporter.Queue(Reporter.Loss);
        _reporter.TellAll(_reportSink);
        IFrameSink reports = _reportSink;
        _reportSink = _bench.Line;
        _isMeasuring = true;
        _bench.Run();
        _reporter.TellAll(_reportSink);
        _isMeasuring = false;
        _reportSink = reports;
        _bench.Save();
        _filler.Bench = _bench.Result;
        return _bench.Result;
    }

    /// <inheritdoc/>
    public int SetSchedule(SetSchedule schedule) => _lone == null ? Results.NotNow : _lone.SetSchedule(schedule);

    /// <inheritdoc/>
    public void RequestRestart() => _restart = true;

    /// <inheritdoc/>
    public bool Step(long nowMicroseconds)
    {
        if (_commands.HasAnswer)
        {
            _commands.SendAnswer(_line, nowMicroseconds);
            _sampler.Excuse(LossReasons.Command);
            return true;
        }

        if (_reporter.IsBusy)
        {
            _reporter.Step(_reportSink, nowMicroseconds);
            return true;
        }

        // A command that came meanwhile waits until the measurement is done: this one is still being carried out.
        if (!_isMeasuring && _commands.Poll(nowMicroseconds))
        {
            _sampler.Excuse(LossReasons.Command);
            return true;
        }

        if (nowMicroseconds < _nextReport)
        {
            return false;
        }

        QueueReports(nowMicroseconds);
        return true;
    }

    // True when the device slept, false when it is to be started anew.
    private bool Serve()
    {
        _board.PowerSensor(true);
        _lone?.Wake();
        _filler.Bench = _bench.TryLoad() ? _bench.Result : null;
        _board.CountMemory();
        long calendar = _board.CalendarMilliseconds();
        if (calendar > 0)
        {
            // Asked once: from here on the crystal carries it, and no sample waits for the chip.
            _state.Clock = ClockSources.Battery;
            _state.CalendarOffsetMilliseconds = calendar - (_board.NowMicroseconds() / 1000);
            _state.CalendarUncertaintyMilliseconds = (uint)_board.CalendarUncertaintyMilliseconds;
        }

        ReadBattery();
        QueueReports(_board.NowMicroseconds());
        _reporter.TellAll(_line);
        if (_lone == null || !_settings.WorksAlone)
        {
            Attend(forever: true);
            return false;
        }

        while (!_restart)
        {
            if (HostSpeaks())
            {
                Attend(forever: false);
                continue;
            }

            // A lone burst reports into its own file; a host that speaks up ends it.
            _reportSink = _lone.Sink;
            bool whole = _lone.RecordBurst();
            _reportSink = _line;
            if (whole)
            {
                _lone.Sleep();
                return true;
            }

            Attend(forever: false);
        }

        return false;
    }

    private bool HostSpeaks()
    {
        int listen = _board.WakeCause == WakeCauses.Timer
            ? _settings.WakeListenMilliseconds
            : _settings.ListenMilliseconds;
        long until = _board.NowMicroseconds() + (listen * 1000L);
        while (_board.NowMicroseconds() < until)
        {
            if (_commands.Poll(_board.NowMicroseconds()))
            {
                return true;
            }

            _board.Rest();
        }

        return false;
    }

    // Serves a host: for ever, or until it has been silent for so long that the logger goes on by itself.
    private void Attend(bool forever)
    {
        while (!_restart)
        {
            if (_sampler.IsRunning)
            {
                _sampler.Run(_sampler.DueMicroseconds + SliceMicroseconds);
                if (!forever && _sampler.IsRunning && IsSilentFor(_settings.StreamSilenceMilliseconds))
                {
                    Stop();
                }
            }
            else if (!Idle() && !forever && IsSilentFor(_settings.HostSilenceMilliseconds))
            {
                return;
            }
        }

        Flush();
    }

    private bool IsSilentFor(int milliseconds) =>
        _board.NowMicroseconds() - _commands.LastHeardMicroseconds > milliseconds * 1000L;

    // Answers, and starts sampling when that was the command; false when there was nothing to do.
    private bool Idle()
    {
        if (!_commands.HasAnswer && !_commands.Poll(_board.NowMicroseconds()))
        {
            _board.Rest();
            return false;
        }

        Flush();
        if (_state.Mode == Modes.Streaming && !_sampler.IsRunning)
        {
            // The hello before the first sample tells a reader all it must know, and the health beside it the battery.
            ReadBattery();
            QueueReports(_board.NowMicroseconds());
            _reporter.TellAll(_line);
            _sampler.Start(
                _line, _state.PeriodMicroseconds, _state.SupplyEvery, _state.DeliveryEvery);
        }

        return true;
    }

    private void Flush()
    {
        while (_commands.HasAnswer)
        {
            _commands.SendAnswer(_line, _board.NowMicroseconds());
        }

        _reporter.TellAll(_line);
    }

    // Never between two samples: a conversion more would make the next one late.
    private void ReadBattery()
    {
        if ((_settings.ChannelMask & (1 << Channels.Battery)) == 0)
        {
            return;
        }

        int counts = _board.ReadConverter(Channels.Battery);
        if (counts >= 0)
        {
            _state.BatteryCounts = counts;
        }
    }

    private void QueueReports(long now)
    {
        _reporter.Queue(Reporter.Hello | Reporter.TimeMark | Reporter.Health | Reporter.Bench | Reporter.Loss);
        _nextReport = now + (_settings.ReportEveryMilliseconds * 1000L);
    }

    private void TellFault(int code, string text)
    {
        FrameWriter frame = FaultFrame.Make(code, _board.NowMicroseconds(), text);
        while (!_line.CanTake(_board.NowMicroseconds()))
        {
            _board.Rest();
        }

        _line.Take(frame.Buffer, frame.Length, _board.NowMicroseconds());
    }
}
