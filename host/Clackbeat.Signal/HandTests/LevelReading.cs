using Clackbeat.Signal.Figures;
using Clackbeat.Site.Check;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;

namespace Clackbeat.Signal.HandTests;

/// <summary>
/// The static level: with the waste valve held shut and the gate open nothing flows, so the body reads the supply head. It tells a level
/// that has sunk from a blocked strainer, which takes nothing from water at rest.
/// </summary>
public static class LevelReading
{
    private const double LeastS = 5;

    // The site file's own head is known to some centimetres where it says nothing of that.
    private const double HeadUncertaintyM = 0.05;

    // What moves more than this within the record is not at rest.
    private const double Still = 0.03;

    /// <summary>Reads the last seconds of a recording.</summary>
    /// <param name="timesS">Times [s].</param>
    /// <param name="pressuresPa">Gauge pressures at the body [Pa].</param>
    /// <param name="site">The ram.</param>
    public static TestResult Read(ReadOnlySpan<double> timesS, ReadOnlySpan<double> pressuresPa, RamSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var expected = ExpectedFigures.For(site);
        var trace = LevelTrace.Of(timesS, pressuresPa);
        int least = LevelTrace.Blocks(LeastS);
        if (trace.Count < least)
        {
            return new TestResult(TestVerdict.Unclear, [Fact.Of("check-level-short", ("record_s", trace.Count * LevelTrace.BlockS), ("needed_s", LeastS))]);
        }

        int from = trace.Count - least;
        double levelPa = trace.Mean(from, trace.Count);
        if (trace.Deviation(from, trace.Count) > Still * expected.StaticPa)
        {
            return new TestResult(TestVerdict.Unclear, [Fact.Of("check-level-moves", ("level_kpa", levelPa / 1000))]);
        }

        double metrePa = expected.Hydraulics.PressurePa(1);
        double headM = (levelPa / metrePa) + site.Sensor.HeightM;
        double uM = 2 * Math.Sqrt(
            Math.Pow(SensorAccuracy.StandardPa(site.Sensor, levelPa) / metrePa, 2) + Math.Pow(0.5 * (site.Supply.HeadUncertaintyM ?? HeadUncertaintyM), 2));
        var seen = Fact.Of("check-level", ("level_m", headM), ("level_u_m", uM), ("supply_m", site.Supply.HeadM));
        double over = headM - site.Supply.HeadM;
        return new TestResult(over < -uM ? TestVerdict.LevelLow : over > uM ? TestVerdict.LevelHigh : TestVerdict.LevelRight, [seen]);
    }
}
