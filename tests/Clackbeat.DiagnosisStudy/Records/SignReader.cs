using Clackbeat.Signal.Analysis;
using Clackbeat.Signal.Beats;
using Clackbeat.Signal.Diagnosis;
using Clackbeat.Site;
using Clackbeat.Site.Model;

namespace Clackbeat.DiagnosisStudy.Records;

/// <summary>The way from a record to its signs alone: flows and the pipe's rating, which take most of an analysis, are left out.</summary>
public static class SignReader
{
    public static (RamState State, bool SensorFault, IReadOnlyDictionary<Sign, double>? Signs) Read(RamSite site, double[] timesS, double[] pressuresPa)
    {
        SiteHydraulics hydraulics = SiteHydraulics.Of(site);
        double supplyPa = hydraulics.PressurePa(site.Supply.HeadM);
        var picture = new PictureBuilder();
        var beats = new List<Beat>();
        var scale = new RamScale(supplyPa, hydraulics.PressurePa(site.Delivery.HeadM), hydraulics.PipePeriodS);
        var detector = new BeatDetector(scale, window =>
        {
            beats.Add(window.Beat);
            picture.Add(window);
        });
        var tally = new RecordTally(site.Sensor);
        tally.SetUsualStep((timesS[^1] - timesS[0]) / (timesS.Length - 1));
        for (int i = 0; i < timesS.Length; i++)
        {
            tally.Add(timesS[i], pressuresPa[i]);
            detector.Add(timesS[i], pressuresPa[i]);
        }

        detector.Finish();
        StateJudge state = StateJudge.Of(detector, beats, timesS[^1], supplyPa, -hydraulics.PressurePa(site.Sensor.HeightM));
        IReadOnlyList<TraceCurve> curves = picture.Build(detector.Samples).Overlay;
        Signature? signature = new SignatureMaker(site, hydraulics).Make(beats, curves);
        bool fault = SensorCheck.Look(new DiagnosisInput(site, hydraulics, tally, state, signature, null, curves, beats.Count)) is not null;
        return (state.State, fault, signature?.Signs);
    }
}
