using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Report.Guides;
using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.Commands.Guide;

/// <summary>Draws the records of a field guide by a virtual ram: the keeper's own, or one of our own invention.</summary>
internal static class VirtualPortraits
{
    private const double LengthS = 30;
    private const double Severity = 0.5;

    private static readonly RamSite Invented = new()
    {
        Name = "the ram at Heron Weir",
        Supply = new Supply { HeadM = 3.2, WaterTemperatureC = 10 },
        DrivePipe = new DrivePipe { Material = PipeMaterial.GalvanisedSteel, LengthM = 16, BoreM = 0.0525, WallM = 0.0039 },
        Delivery = new Delivery { HeadM = 24 },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    /// <summary>The ram, well and with each fault at half its worst.</summary>
    /// <param name="own">The keeper's ram; null for the invented one.</param>
    /// <param name="stop">Ends it early.</param>
    /// <exception cref="Site.InputException">No virtual ram can be made of that site.</exception>
    public static FaultPortraits Make(RamSite? own, CancellationToken stop)
    {
        RamSite site = own ?? Invented;
        RamDesign design = RamDesigner.Design(site);
        RamAnalysis well = Analyse(site, design, Fault.None, null);
        RamCondition[] conditions = [.. ConditionTraits.Codes.Where(c => c != Conditions.Healthy).Select(ConditionCodes.Parse<RamCondition>)];
        var records = new RamAnalysis[conditions.Length];
        Parallel.For(0, conditions.Length, new ParallelOptions { CancellationToken = stop, MaxDegreeOfParallelism = Environment.ProcessorCount }, i => records[i] = Analyse(
            site, design, new Fault { Condition = conditions[i], Severity = Severity, SensorFault = SensorFaultKind.AirInTap }, well.Signature));
        return new FaultPortraits(site, own is not null, well, [.. conditions.Select((c, i) => (c.Code(), records[i]))]);
    }

    private static RamAnalysis Analyse(RamSite site, RamDesign design, Fault fault, Signature? well)
    {
        var ram = new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { Fault = fault, Seed = fault == Fault.None ? 1 : 2 });
        VirtualSample[] samples = [.. ram.Samples(LengthS)];
        var analyser = new RamAnalyser(site, well);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("virtual");
    }
}
