using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
using Clackbeat.VirtualLogger.Converter;
using Clackbeat.VirtualLogger.Device;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Solver;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Commands.Simulate;

/// <summary>A virtual ram of a site with its sensor on a virtual logger's converter, and the truth about it.</summary>
internal sealed class VirtualChain
{
    private readonly List<VirtualBeat> _beats = [];
    private readonly RamSimulation _ram;
    private readonly RamDesign _design;
    private readonly SensorParameters _sensor;
    private readonly SimulationOptions _options;
    private readonly SensorModel _model;
    private RamSimulation _running;
    private RamSimulation? _changed;
    private Action<RamEngine>? _hands;
    private double _offsetS;
    private double _lastS;

    /// <summary>Makes the ram and lets it warm up.</summary>
    public VirtualChain(RamSite site, RamDesign design, SensorParameters sensor, SimulationOptions options)
    {
        (_design, _sensor, _options) = (design, RamConverter.Continuous(sensor), options);
        _running = _ram = new RamSimulation(design.Ram, _sensor, options);
        _ram.BeatEnded += _beats.Add;
        _model = new SensorModel { Conversion = SiteSensing.ConversionOf(site) };
        Source = RamConverter.Of(Next, _model, sensor.NoisePa, options.Seed);
    }

    /// <summary>What the logger's converter reads.</summary>
    public IConverterSource Source { get; }

    /// <summary>Gives a virtual logger the converter of this chain, as a board has it in its settings.</summary>
    public VirtualLoggerOptions Fitted(VirtualLoggerOptions logger)
    {
        logger.Settings.ConverterMax = _model.MaxCounts;
        return logger;
    }

    /// <summary>The ram's whole beats so far.</summary>
    public IReadOnlyList<VirtualBeat> Beats => _beats;

    /// <summary>Sums over them.</summary>
    public RamTotals Totals => _ram.Totals;

    /// <summary>What arrives at the outlet of the main, over the whole beats of the ram that runs [m³/s]; null before the first.</summary>
    public double? ArrivingM3PerS => _running.Totals is { Beats: > 0 } totals ? totals.ArrivedM3 / totals.DurationS : null;

    /// <summary>Puts another ram in the first one's place, as a keeper does who shuts the water off, turns the valve and starts it again.</summary>
    /// <param name="change">What is changed.</param>
    /// <param name="isMended">Its fault is gone.</param>
    /// <param name="hands">What the keeper does at the new one as soon as it stands there; null lets it start.</param>
    public void Change(Func<RamParameters, RamParameters> change, bool isMended = false, Action<RamEngine>? hands = null)
    {
        SimulationOptions options = _options with { FromRest = true, Fault = isMended ? Fault.None : _options.Fault };
        var other = new RamSimulation(change(_design.Ram), _sensor, options);
        hands?.Invoke(other.Engine);
        Interlocked.Exchange(ref _changed, other);
    }

    /// <summary>Does something at the ram that runs, before its next sample.</summary>
    /// <param name="hands">What is done.</param>
    public void Do(Action<RamEngine> hands) => Interlocked.Exchange(ref _hands, hands);

    /// <summary>What ails the ram.</summary>
    public Fault Fault => _options.Fault;

    private VirtualSample Next()
    {
        if (Interlocked.Exchange(ref _changed, null) is { } other)
        {
            (_running, _offsetS) = (other, _lastS + (1 / RamConverter.PointsHz));
        }

        Interlocked.Exchange(ref _hands, null)?.Invoke(_running.Engine);
        VirtualSample sample = _running.Next();
        _lastS = _offsetS + sample.TimeS;
        return sample with { TimeS = _lastS };
    }
}
