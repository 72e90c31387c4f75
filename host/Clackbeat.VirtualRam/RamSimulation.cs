using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Solver;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam;

/// <summary>
/// A virtual ram with its sensor, as an endless stream of samples. Each call of <see cref="Next"/> runs the ram up to the
/// next sample and no further, so a caller may pace it in real time, or draw an hour without holding it.
/// </summary>
public sealed class RamSimulation
{
    private readonly SensorChain _chain;
    private readonly SecondOrderResponse _response;
    private readonly BeatWatch _watch;
    private readonly double _pressurePerHead;
    private long _samples;
    private double _lastTimeS;
    private double _lastAnswer;
    private double _answer;
    private double _lastTruePa;

    /// <summary>Makes the ram; time 0 is the first sample's even place.</summary>
    /// <param name="ram">The ram when it is well.</param>
    /// <param name="sensor">Its sensor.</param>
    /// <param name="options">Condition, seed, start.</param>
    public RamSimulation(RamParameters ram, SensorParameters sensor, SimulationOptions? options = null)
    {
        options ??= new SimulationOptions();
        ArgumentNullException.ThrowIfNull(sensor);
        Fault = options.Fault;
        RamParameters ill = FaultEffects.Apply(ram, Fault);
        Sensor = FaultEffects.Apply(sensor, Fault);
        double warmUp = options.FromRest ? 0 : options.WarmUpS;
        Engine = new RamEngine(ill, Fault, options.Seed, -warmUp);
        Totals = new RamTotals(ill);
        _watch = new BeatWatch(Engine);
        _chain = new SensorChain(Sensor, Fault, unchecked(options.Seed * 31 + 7));
        _pressurePerHead = ill.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        _response = new SecondOrderResponse(
            Sensor.NaturalFrequencyHz, Sensor.DampingRatio, Engine.StepS, PressurePa);
        _lastTimeS = Engine.TimeS;
        _lastAnswer = _answer = _lastTruePa = PressurePa;
    }

    /// <summary>Raised for every whole beat that begins at time 0 or later, as it ends.</summary>
    public event Action<VirtualBeat>? BeatEnded;

    /// <summary>Raised after every solver step: the flows and heads at the solver's own rate.</summary>
    public event Action<RamEngine>? Stepped;

    /// <summary>The condition.</summary>
    public Fault Fault { get; }

    /// <summary>The sensor, with a sensor fault's lasting part.</summary>
    public SensorParameters Sensor { get; }

    /// <summary>The running ram.</summary>
    public RamEngine Engine { get; }

    /// <summary>Sums over the whole beats so far that began at time 0 or later.</summary>
    public RamTotals Totals { get; }

    private double PressurePa => _pressurePerHead * (Engine.BodyHeadM - Sensor.HeightM);

    /// <summary>The next sample.</summary>
    public VirtualSample Next()
    {
        double even = _samples / Sensor.RateHz;
        double at = Math.Max(even + _chain.NextJitterS(), _lastTimeS);
        _samples++;
        while (Engine.TimeS < at)
        {
            Advance();
        }

        // The instant lies within the last step: both curves run straight there.
        double share = Math.Clamp(1 - (Engine.TimeS - at) / Engine.StepS, 0, 1);
        double felt = _lastAnswer + share * (_answer - _lastAnswer);
        int counts = _chain.Read(felt);
        _lastTimeS = at;
        double truePa = _lastTruePa + share * (PressurePa - _lastTruePa);
        return new VirtualSample(at, counts, _chain.PressurePa(counts), truePa);
    }

    /// <summary>Samples from now to a time [s].</summary>
    public IEnumerable<VirtualSample> Samples(double untilS)
    {
        while (_samples / Sensor.RateHz < untilS)
        {
            yield return Next();
        }
    }

    private void Advance()
    {
        _lastTruePa = PressurePa;
        Engine.Step();
        _lastAnswer = _answer;
        _answer = _response.Next(PressurePa);
        if (_watch.Look() is { ClosureS: >= 0 } beat)
        {
            Totals.Add(beat);
            BeatEnded?.Invoke(beat);
        }

        Stepped?.Invoke(Engine);
    }
}
