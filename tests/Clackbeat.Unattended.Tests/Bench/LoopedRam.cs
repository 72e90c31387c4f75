using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Unattended.Tests.Bench;

/// <summary>
/// A virtual ram's pressure, simulated once for some whole beats and played over and over: months of it cost nothing. It can be
/// stopped, hurried and made to hit harder while it plays.
/// </summary>
internal sealed class LoopedRam
{
    private const double StepS = 1.0 / 4000;
    private readonly double[] _pressuresPa;
    private double _phaseS;
    private double? _lastS;

    public LoopedRam(RamSite site)
    {
        RamDesign design = RamDesigner.Design(site);
        List<VirtualBeat> beats = [];
        var ram = new RamSimulation(design.Ram, design.Sensor with { RateHz = 1 / StepS, NoisePa = 0, JitterS = 0 }, new SimulationOptions());
        ram.BeatEnded += beats.Add;
        List<double> trace = [];

        // Creep of a plastic wall takes some beats to settle; a loop cut before that would jump where it closes.
        while (beats.Count < 33)
        {
            trace.Add(ram.Next().PressurePa);
        }

        int from = (int)(beats[24].ClosureS / StepS);
        int to = (int)(beats[32].ClosureS / StepS);
        _pressuresPa = [.. trace[from..to]];
        RatePerMin = 60 * 8 / (beats[32].ClosureS - beats[24].ClosureS);
        StillPa = 9.80665e3 * site.Supply.HeadM;
    }

    /// <summary>Beats a minute at its own speed.</summary>
    public double RatePerMin { get; }

    /// <summary>The body's pressure while the ram stands, waste valve shut [Pa].</summary>
    public double StillPa { get; }

    /// <summary>It stands.</summary>
    public bool Stopped { get; set; }

    /// <summary>How much faster than by itself it beats.</summary>
    public double Hurry { get; set; } = 1;

    /// <summary>Factor on all pressures above the static delivery pressure's half.</summary>
    public double Harder { get; set; } = 1;

    /// <summary>Pressure [Pa]; times never step back.</summary>
    public double? At(double timeS)
    {
        _phaseS += Hurry * (timeS - (_lastS ?? timeS));
        _lastS = timeS;
        if (Stopped)
        {
            return StillPa;
        }

        double position = _phaseS / StepS % _pressuresPa.Length;
        int before = (int)position;
        double share = position - before;
        double pressurePa = ((1 - share) * _pressuresPa[before]) + (share * _pressuresPa[(before + 1) % _pressuresPa.Length]);
        return pressurePa > 0 ? pressurePa * Harder : pressurePa;
    }
}
