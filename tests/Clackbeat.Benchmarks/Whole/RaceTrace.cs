using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Records.Samples;
using Clackbeat.Records.Tables;
using Clackbeat.Signal.Beats;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;

namespace Clackbeat.Benchmarks.Whole;

/// <summary>An hour of one ram at 1000 samples a second, to find beats in.</summary>
/// <param name="Name">What ram it is.</param>
/// <param name="Scale">The ram's magnitudes.</param>
/// <param name="TimesS">Times [s].</param>
/// <param name="PressuresPa">Gauge pressures [Pa].</param>
internal sealed record RaceTrace(string Name, RamScale Scale, double[] TimesS, double[] PressuresPa)
{
    private const double LengthS = 3600;
    private const double RateHz = 1000;

    /// <summary>Virtual rams that differ in what may cost time: how often they beat, how much they ring, how much their sensor hisses.</summary>
    public static IEnumerable<RaceTrace> Virtual()
    {
        yield return Of("smooth, steel pipe", Bench.Site, RamCharacter.Smooth, 1);
        yield return Of("lively, five times the noise", Ram(PipeMaterial.PvcU, 12, 0.0409, 0.00368, 3, 18), RamCharacter.Lively, 5);
        yield return Of("slow, long pipe", Ram(PipeMaterial.Pe100, 40, 0.0514, 0.0058, 2, 22), RamCharacter.Smooth, 2);
        yield return Of("quick, short pipe", Ram(PipeMaterial.PvcU, 6, 0.0409, 0.00368, 3, 9), RamCharacter.Smooth, 2);
    }

    /// <summary>
    /// A trace of one's own laid end to end over an hour and brought to 1000 samples a second, with a pascal of fresh noise on each sample:
    /// without it every round would have tops of the same height, among which a search for prominences takes a time that nature never asks.
    /// </summary>
    public static RaceTrace Own(string file, string siteFile)
    {
        RamSite site = SiteFile.Load(siteFile);
        (List<double> timesS, List<double> pressuresPa) = ([], []);
        var conditioner = new TraceConditioner((timeS, pressurePa) =>
        {
            timesS.Add(timeS);
            pressuresPa.Add(pressurePa);
        });
        using (var trace = TraceFile.Open(file, TraceColumns.Default))
        {
            (double[] someS, double[] somePa) = (new double[4096], new double[4096]);
            while (trace.Read(someS, somePa) is > 0 and var count)
            {
                for (int i = 0; i < count; i++)
                {
                    conditioner.Add(someS[i], somePa[i]);
                }
            }
        }

        conditioner.Finish();
        double[] atS = [.. Enumerable.Range(0, (int)(LengthS * RateHz)).Select(i => i / RateHz)];
        return new RaceTrace(Path.GetFileName(file), Bench.ScaleOf(site), atS, EndToEnd(timesS, pressuresPa, atS));
    }

    private static double[] EndToEnd(List<double> timesS, List<double> pressuresPa, double[] atS)
    {
        double lengthS = timesS[^1] - timesS[0];
        var random = new Random(1);
        double[] laid = new double[atS.Length];
        int k = 0;
        for (int i = 0; i < atS.Length; i++)
        {
            double withinS = timesS[0] + (atS[i] % lengthS);
            k = withinS < timesS[k] ? 0 : k;
            while (timesS[k + 1] < withinS)
            {
                k++;
            }

            double share = (withinS - timesS[k]) / (timesS[k + 1] - timesS[k]);
            laid[i] = pressuresPa[k] + (share * (pressuresPa[k + 1] - pressuresPa[k])) + random.NextDouble();
        }

        return laid;
    }

    private static RamSite Ram(PipeMaterial material, double lengthM, double boreM, double wallM, double headM, double deliveryM) => Bench.Site with
    {
        Supply = new Supply { HeadM = headM, WaterTemperatureC = 12 },
        DrivePipe = new DrivePipe { Material = material, LengthM = lengthM, BoreM = boreM, WallM = wallM },
        Delivery = new Delivery { HeadM = deliveryM },
    };

    private static RaceTrace Of(string name, RamSite site, RamCharacter character, double noise)
    {
        (double[] timesS, double[] pressuresPa) = Bench.Trace(LengthS, site, character, noise);
        return new RaceTrace(name, Bench.ScaleOf(site), timesS, pressuresPa);
    }
}
