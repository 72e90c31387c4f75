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
    private readonly SensorChain chain;
    private readonly SecondOrderResponse response;
    private readonly BeatWatch watch;
    private readonly double pressurePerHead;
    private long samples;
    private double lastTimeS;
    private double lastAnswer;
    private double answer;
    private double lastTruePa;

    /// <summary>Makes the ram; time 0 is the first sample's even place.</summary>
    /// <param name="ram">The ram when it is well.</param>
    /// <param name="sensor">Its sensor.</param>
    /// <param name="options">Condition, seed, start.</param>
    public RamSimulation(RamParameters ram, SensorParameters sensor, SimulationOptions? options = null)
    {
        options ??= new SimulationOptions();
        ArgumentNullException.ThrowIfNull(sensor);
        Fault = options.Fault;
        var ill = FaultEffects.Apply(ram, Fault);
        Sensor = FaultEffects.Apply(sensor, Fault);
        var warmUp = options.FromRest ? 0 : options.WarmUpS;
        Engine = new RamEngine(ill, Fault, options.Seed, -warmUp);
        Totals = new RamTotals(ill);
        watch = new BeatWatch(Engine);
        chain = new SensorChain(Sensor, Fault, unchecked(options.Seed * 31 + 7));
        pressurePerHead = ill.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        response = new SecondOrderResponse(
            Sensor.NaturalFrequencyHz, Sensor.DampingRatio, Engine.StepS, PressurePa);
        lastTimeS = Engine.TimeS;
        lastAnswer = answer = lastTruePa = PressurePa;
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

    private double PressurePa => pressurePerHead * (Engine.BodyHeadM - Sensor.HeightM);

    /// <summary>The next sample.</summary>
    public VirtualSample Next()
    {
        var even = samples / Sensor.RateHz;
        var at = Math.Max(even + chain.NextJitterS(), lastTimeS);
        samples++;
        while (Engine.TimeS < at)
        {
            Advance();
        }

        // The instant lies within the last step: both curves run straight there.
        var share = Math.Clamp(1 - (Engine.TimeS - at) / Engine.StepS, 0, 1);
        var felt = lastAnswer + share * (answer - lastAnswer);
        var counts = chain.Read(felt);
        lastTimeS = at;
        var truePa = lastTruePa + share * (PressurePa - lastTruePa);
        return new VirtualSample(at, counts, chain.PressurePa(counts), truePa);
    }

    /// <summary>Samples from now to a time [s].</summary>
    public IEnumerable<VirtualSample> Samples(double untilS)
    {
        while (samples / Sensor.RateHz < untilS)
        {
            yield return Next();
        }
    }

    private void Advance()
    {
        lastTruePa = PressurePa;
        Engine.Step();
        lastAnswer = answer;
        answer = response.Next(PressurePa);
        if (watch.Look() is { ClosureS: >= 0 } beat)
        {
            Totals.Add(beat);
            BeatEnded?.Invoke(beat);
        }

        Stepped?.Invoke(Engine);
    }
}
