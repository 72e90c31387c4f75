using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Sensing;

namespace Clackbeat.Signal.Tests.Diagnosis;

/// <summary>Runs a virtual ram of the tests, well or ill, and has it judged.</summary>
internal static class Clinic
{
    private const double LengthS = 40;

    public static RamAnalysis Examine(
        RamSite site, Fault fault, Signature? well = null, RamCharacter character = RamCharacter.Smooth, int seed = 5,
        Func<SensorParameters, SensorParameters>? sensor = null, double lengthS = LengthS)
    {
        RamDesign design = RamDesigner.Design(site, character, PipeDetail.Elastic);
        SensorParameters used = sensor?.Invoke(design.Sensor) ?? design.Sensor;
        var ram = new RamSimulation(design.Ram, used, new SimulationOptions { Fault = fault, Seed = seed });
        VirtualSample[] samples = [.. ram.Samples(lengthS)];
        var analyser = new RamAnalyser(site, well);
        analyser.Add([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)]);
        return analyser.Finish("a record of the tests");
    }

    public static Fault Ill(string condition, double severity = 0.5, SensorFaultKind kind = SensorFaultKind.FlatLine, StarvedBy starvedBy = StarvedBy.LowLevel)
    {
        Assert.True(ConditionCodes.TryParse(condition, out RamCondition known), condition);
        return new Fault { Condition = known, Severity = severity, SensorFault = kind, StarvedBy = starvedBy };
    }
}
