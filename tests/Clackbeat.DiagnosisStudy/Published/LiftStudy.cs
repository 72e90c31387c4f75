using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.DiagnosisStudy.Published;

/// <summary>What a virtual ram reached at one lift over fall.</summary>
/// <param name="LiftOverFall">Delivery head over supply head.</param>
/// <param name="Pipe">Its drive pipe, in words.</param>
/// <param name="Character">How it is made.</param>
/// <param name="DAubuisson">Efficiency q h / (Q H).</param>
/// <param name="Rankine">Efficiency q (h − H) / ((Q − q) H).</param>
/// <param name="BeatsPerMin">Its rate.</param>
internal sealed record LiftPoint(double LiftOverFall, string Pipe, RamCharacter Character, double DAubuisson, double Rankine, double BeatsPerMin);

/// <summary>
/// Runs virtual rams at one fall over a range of lifts. The pipes are common ones of the trade; none of their measures was
/// chosen to meet a published efficiency.
/// </summary>
internal static class LiftStudy
{
    private const double RunS = 40;

    /// <summary>Lifts over fall of the published table, and 3 below it.</summary>
    public static IReadOnlyList<double> Lifts { get; } = [3, 4, 6, 8, 10, 12, 16, 20];

    private static readonly (string Name, PipeMaterial Material, double SupplyM, double LengthM, double BoreM, double WallM)[] Pipes =
    [
        ("1 inch steel, 10 m, fall 1.5 m", PipeMaterial.GalvanisedSteel, 1.5, 10, 0.0266, 0.0034),
        ("2 inch steel, 15 m, fall 2.5 m", PipeMaterial.GalvanisedSteel, 2.5, 15, 0.0525, 0.0039),
        ("3 inch steel, 25 m, fall 4 m", PipeMaterial.GalvanisedSteel, 4, 25, 0.0779, 0.0055),
        ("2 inch PVC, 15 m, fall 2.5 m", PipeMaterial.PvcU, 2.5, 15, 0.0525, 0.0039),
    ];

    /// <summary>All runs, by lift.</summary>
    public static IReadOnlyList<LiftPoint> Run() =>
    [
        .. (from lift in Lifts from pipe in Pipes from character in new[] { RamCharacter.Smooth, RamCharacter.Lively } select (lift, pipe, character))
            .AsParallel().AsOrdered().WithDegreeOfParallelism(2)
            .Select(r => Point(r.lift, r.pipe, r.character)),
    ];

    private static LiftPoint Point(
        double lift, (string Name, PipeMaterial Material, double SupplyM, double LengthM, double BoreM, double WallM) pipe, RamCharacter character)
    {
        RamDesign design = RamDesigner.Design(
            new RamSite
            {
                Name = pipe.Name,
                Supply = new Supply { HeadM = pipe.SupplyM, WaterTemperatureC = 12 },
                DrivePipe = new DrivePipe { Material = pipe.Material, LengthM = pipe.LengthM, BoreM = pipe.BoreM, WallM = pipe.WallM },
                Delivery = new Delivery { HeadM = lift * pipe.SupplyM },
                Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 4e6 },
            },
            character);
        var run = new RamSimulation(design.Ram, design.Sensor with { RateHz = 50 });
        foreach (VirtualSample _ in run.Samples(RunS))
        {
            // Only the sums over whole beats are wanted.
        }

        return new LiftPoint(
            lift, pipe.Name, character, run.Totals.DAubuisson ?? 0, run.Totals.Rankine ?? 0, run.Totals.BeatsPerMin ?? 0);
    }
}
