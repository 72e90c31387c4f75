using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Signal.States;
using Clackbeat.Site.Model;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>The way from a record to its features: the program's own analysis, so that the study sees what the program sees.</summary>
public static class FeatureReader
{
    /// <summary>Analyses a record. Settled is what was named first where no model of the beat was asked: a silent ram, a sensor not to be believed.</summary>
    public static (RamState State, string? Settled, Signature? Signature) Read(RamSite site, double[] timesS, double[] pressuresPa)
    {
        var analyser = new RamAnalyser(site);
        analyser.Add(timesS, pressuresPa);
        RamAnalysis analysis = analyser.Finish("a record of the study");
        bool settled = analysis.State != RamState.Beating || analysis.Diagnosis.Any(f => f.Condition == Conditions.SensorFault);
        return (analysis.State, settled ? analysis.Diagnosis.Select(f => f.Condition).FirstOrDefault() : null, analysis.Signature);
    }
}
