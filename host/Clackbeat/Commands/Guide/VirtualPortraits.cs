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

    // A slow swing takes longer to show.
    private const double SwingS = 60;
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
        RamCondition[] further = [.. FurtherCause.All.Select(c => c.Simulated).OfType<string>().Select(ConditionCodes.Parse<RamCondition>)];
        RamCondition[] all = [.. conditions, .. further];
        var records = new RamAnalysis[all.Length];
        Parallel.For(0, all.Length, new ParallelOptions { CancellationToken = stop, MaxDegreeOfParallelism = Environment.ProcessorCount }, i => records[i] = Analyse(
            site, design, FaultOf(all[i]), well.Signature));
        var drawn = all.Zip(records).ToDictionary(r => r.First.Code(), r => r.Second, StringComparer.Ordinal);
        return new FaultPortraits(
            site, own is not null, well, [.. conditions.Select(c => (c.Code(), drawn[c.Code()]))],
            [.. FurtherCause.All.Select(c => (c, c.Simulated is null ? null : drawn[c.Simulated]))]);
    }

    // A nut that slips does so in the middle of the record.
    private static Fault FaultOf(RamCondition condition) => new()
    {
        Condition = condition,
        Severity = Severity,
        SensorFault = SensorFaultKind.AirInTap,
        StopsAtS = condition == RamCondition.LockNutSlips ? LengthS / 2 : Fault.None.StopsAtS,
    };

    private static RamAnalysis Analyse(RamSite site, RamDesign design, Fault fault, Signature? well)
    {
        var ram = new RamSimulation(design.Ram, design.Sensor, new SimulationOptions { Fault = fault, Seed = fault == Fault.None ? 1 : 2 });
        VirtualSample[] samples = [.. ram.Samples(fault.Condition == RamCondition.SecondRam ? SwingS : LengthS)];
        var analyser = new RamAnalyser(site, well);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("virtual");
    }
}
