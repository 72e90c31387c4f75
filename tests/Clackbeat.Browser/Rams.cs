using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.Watch.Live;

namespace Clackbeat.Browser;

/// <summary>Virtual rams whose samples come as time runs, or faster.</summary>
internal static class Rams
{
    public static RamSite Site { get; } = SiteFile.Parse(SiteTemplate.Text(Units.Metric), "template");

    public static RamSimulation Simulation(double rateHz, Fault? fault = null)
    {
        RamDesign design = RamDesigner.Design(Site);
        return new RamSimulation(design.Ram, design.Sensor with { RateHz = rateHz }, new SimulationOptions { Fault = fault ?? Fault.None });
    }

    /// <summary>A stretch that can be played round and round: from one closure to another.</summary>
    public static (double[] PressuresPa, double RateHz) Loop(double rateHz)
    {
        RamSimulation ram = Simulation(rateHz);
        List<double> closuresS = [];
        ram.BeatEnded += b => closuresS.Add(b.ClosureS);
        VirtualSample[] samples = [.. ram.Samples(20)];
        int from = (int)(closuresS[1] * rateHz);
        int to = (int)(closuresS[^2] * rateHz);
        return ([.. samples[from..to].Select(s => s.PressurePa)], rateHz);
    }
}

/// <summary>Samples as time runs, the first so many seconds at once, so that no test waits for the first beats.</summary>
internal sealed class PacedSource(Func<long, (double TimeS, double PressurePa)> next, double headStartS, double speed = 1) : LiveSource
{
    private const double PieceS = 0.01;

    public override string Name => "virtual";

    public override SourceKind Kind => SourceKind.Virtual;

    /// <summary>When the sample of a time was handed over, if speed is 1 [UTC].</summary>
    public DateTime At(double timeS) => Began.AddSeconds(timeS - headStartS);

    public DateTime Began { get; private set; }

    /// <summary>Time of the newest sample [s].</summary>
    public double NewestS { get; private set; }

    public static PacedSource Of(RamSimulation ram, double headStartS) => new(
        _ =>
        {
            VirtualSample sample = ram.Next();
            return (sample.TimeS, sample.PressurePa);
        },
        headStartS);

    public static PacedSource Of((double[] PressuresPa, double RateHz) loop, double speed) => new(
        i => (i / loop.RateHz, loop.PressuresPa[i % loop.PressuresPa.Length]), 0, speed);

    public override void Run(LivePipeline pipeline, CancellationToken cancellation)
    {
        pipeline.Tell(LinkState.Streaming, "Samples are coming in.");
        List<double> timesS = [];
        List<double> pressuresPa = [];
        Began = DateTime.UtcNow;
        long began = TimeProvider.System.GetTimestamp();
        for (long i = 0; !cancellation.IsCancellationRequested; i++)
        {
            (double timeS, double pressurePa) = next(i);
            timesS.Add(timeS);
            pressuresPa.Add(pressurePa);
            if (timeS - timesS[0] < PieceS * speed)
            {
                continue;
            }

            if (timeS > headStartS)
            {
                TimeSpan early = TimeSpan.FromSeconds((timeS - headStartS) / speed) - TimeProvider.System.GetElapsedTime(began);
                cancellation.WaitHandle.WaitOne(early > TimeSpan.Zero ? early : TimeSpan.Zero);
            }
            else
            {
                (Began, began) = (DateTime.UtcNow, TimeProvider.System.GetTimestamp());
            }

            NewestS = timeS;
            pipeline.Take(timesS.ToArray(), pressuresPa.ToArray());
            timesS.Clear();
            pressuresPa.Clear();
        }
    }
}
