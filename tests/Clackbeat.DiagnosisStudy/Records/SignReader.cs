using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site.Model;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>The way from a record to its signs: the program's own analysis, so that the study sees what the program sees.</summary>
public static class SignReader
{
    public static (RamState State, bool SensorFault, Signature? Signature) Read(RamSite site, double[] timesS, double[] pressuresPa)
    {
        var analyser = new RamAnalyser(site);
        analyser.Add(timesS, pressuresPa);
        RamAnalysis analysis = analyser.Finish("a record of the study");
        return (analysis.State, analysis.Diagnosis.Any(f => f.Condition == Conditions.SensorFault), analysis.Signature);
    }
}
