using Clackbeat.Hydraulics.Pipes;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Remedies;
using Clackbeat.VirtualRam.Sensing;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.VirtualRam.Tests.Advice;

/// <summary>What a run of a virtual ram gave: rates over its whole beats, peaks before any sensor.</summary>
internal sealed record Outcome(
    double BeatsPerMin, double DrawnM3PerS, double WasteM3PerS, double DeliveredM3PerS, double ArrivedM3PerS, double PeakPa, double SuctionPa,
    double PlateauPa, double MeanPa, double Irregularity)
{
    internal double Of(string quantity) => quantity switch
    {
        "rate" => BeatsPerMin,
        "drawn" => DrawnM3PerS,
        "waste" => WasteM3PerS,
        "delivered" => DeliveredM3PerS,
        "arrived" => ArrivedM3PerS,
        "waste-a-beat" => WasteM3PerS * 60 / BeatsPerMin,
        "delivered-a-beat" => DeliveredM3PerS * 60 / BeatsPerMin,
        "peak" => PeakPa,
        "suction-depth" => -SuctionPa,
        "plateau" => PlateauPa,
        "mean" => MeanPa,
        "unevenness" => Irregularity,
        _ => throw new ArgumentException($"\"{quantity}\" is nothing a run of a virtual ram gives.", nameof(quantity)),
    };
}

/// <summary>Rams that advice is tried on: three materials, falls from 1 to 5 m, lifts from 4 to 9 falls, smooth and lively.</summary>
internal static class TriedRams
{
    private const double StepS = 2e-4;
    private const double RunS = 14;

    internal static IReadOnlyList<(string Name, RamParameters Ram)> All { get; } =
    [
        .. from site in new[]
            {
                TestRams.Site(PipeMaterial.GalvanisedSteel, 2.2, 14, 0.052, 17, 1270),
                TestRams.Site(PipeMaterial.Steel, 5, 25, 0.078, 24, 1250),
                TestRams.Site(PipeMaterial.PvcU, 2.8, 11, 0.041, 16, 450),
                TestRams.Site(PipeMaterial.Pe100, 1.2, 9, 0.051, 10, 280),
            }
           from character in Enum.GetValues<RamCharacter>()
           select ($"{site.DrivePipe.Material}, {site.Supply.HeadM} m to {site.Delivery.HeadM} m, {character}",
               RamDesigner.Design(site, character).Ram),
    ];

    /// <summary>A run with the valve changed; null when it made fewer than four whole beats.</summary>
    internal static Outcome? Run(RamParameters ram, ValveChange? change, double share, Fault fault)
    {
        if (change is { } turned)
        {
            ram = ram with { WasteValve = ram.WasteValve.Changed(turned, share) };
        }

        var simulation = new RamSimulation(
            ram with { LongestStepS = StepS, MostReaches = 150 },
            new SensorParameters { RangeLowPa = -1e5, RangeHighPa = 1e7, RateHz = 1 / StepS },
            new SimulationOptions { Fault = fault, Seed = 3 });
        var beats = new List<VirtualBeat>();
        simulation.BeatEnded += beats.Add;
        (double sum, long count) = (0.0, 0L);
        foreach (VirtualSample sample in simulation.Samples(RunS))
        {
            sum += sample.TruePressurePa;
            count++;
        }

        return beats.Count < 4 || beats[^1].ClosureS + 3 * beats[^1].IntervalS < RunS
            ? null
            : Of(beats, simulation.Totals, sum / count);
    }

    private static Outcome Of(List<VirtualBeat> beats, RamTotals totals, double meanPa)
    {
        double interval = beats.Average(b => b.IntervalS);
        return new Outcome(
            totals.BeatsPerMin!.Value,
            totals.DrawnM3 / totals.DurationS,
            totals.WasteM3 / totals.DurationS,
            totals.DeliveredM3 / totals.DurationS,
            totals.ArrivedM3 / totals.DurationS,
            beats.Average(b => b.PeakPa),
            beats.Average(b => b.SuctionPa),
            beats.Average(b => b.PlateauPa ?? 0),
            meanPa,
            Math.Sqrt(beats.Average(b => (b.IntervalS - interval) * (b.IntervalS - interval))) / interval);
    }
}
