using System.Collections.Concurrent;
using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Records.Tables;
using Clackbeat.Signal.Analysis;
using Clackbeat.Site.Files;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;
using Clackbeat.VirtualRam.Truth;

namespace Clackbeat.Signal.Tests;

/// <summary>Sites and records for the tests.</summary>
internal static class Rams
{
    public static RamSite Steel { get; } = Site(PipeMaterial.GalvanisedSteel, 15, 0.0525, 0.0039, 2.5, 20);

    public static RamSite Pvc { get; } = Site(PipeMaterial.PvcU, 12, 0.0409, 0.00368, 3, 18);

    public static RamSite Polyethylene { get; } = Site(PipeMaterial.Pe100, 25, 0.0514, 0.0058, 4, 22);

    /// <summary>The laboratory's model of 2021: 1.56 m of 1-inch PVC pipe. The measured traces are of the rig of 2019.</summary>
    public static RamSite Laboratory { get; } = Site(PipeMaterial.PvcU, 1.56, 0.0254, 0.0034, 1.56, 6);

    /// <summary>
    /// The laboratory's vertical ram of summer 2019, by that year's notebook: 1.74 m of 1-inch PVC pipe, 2.185 m of water over the
    /// plate, 6 m in the vessel. See docs/published-rams.md.
    /// </summary>
    public static RamSite Laboratory2019 { get; } = Site(PipeMaterial.PvcU, 1.74, 0.0254, 0.0034, 2.185, 6);

    public static RamSite Site(PipeMaterial material, double lengthM, double boreM, double wallM, double headM, double deliveryM) => new()
    {
        Name = "a ram of the tests",
        Supply = new Supply { HeadM = headM, WaterTemperatureC = 12 },
        DrivePipe = new DrivePipe { Material = material, LengthM = lengthM, BoreM = boreM, WallM = wallM },
        Delivery = new Delivery { HeadM = deliveryM },
        Sensor = new Sensor { RangeLowPa = 0, RangeHighPa = 1e6 },
    };

    private static readonly ConcurrentDictionary<Recipe, Lazy<(double[] TimesS, double[] PressuresPa, List<VirtualBeat> Truth)>> Records = new();

    /// <summary>A virtual ram's record with its truth; the same one for every test that asks for it, so none may change it.</summary>
    public static (double[] TimesS, double[] PressuresPa, List<VirtualBeat> Truth) Record(
        RamSite site, double lengthS, double rateHz = 1000, double noise = 1, Fault? fault = null, RamCharacter character = RamCharacter.Smooth, int seed = 1)
    {
        var recipe = new Recipe(site, lengthS, rateHz, noise, fault, character, seed);
        return Records.GetOrAdd(recipe, r => new(() => Simulate(r))).Value;
    }

    private static (double[] TimesS, double[] PressuresPa, List<VirtualBeat> Truth) Simulate(Recipe recipe)
    {
        (RamSite site, double lengthS, double rateHz, double noise, Fault? fault, RamCharacter character, int seed) = recipe;

        // The rams that the estimator and the models of the diagnosis were made on neither creep nor rub beyond the steady friction.
        RamDesign design = RamDesigner.Design(site, character, PipeDetail.Elastic);
        SensorParameters sensor = design.Sensor with { RateHz = rateHz, NoisePa = design.Sensor.NoisePa * noise };
        var ram = new RamSimulation(design.Ram, sensor, new SimulationOptions { Fault = fault ?? Fault.None, Seed = seed });
        var truth = new List<VirtualBeat>();
        ram.BeatEnded += truth.Add;
        var samples = ram.Samples(lengthS).ToList();
        return ([.. samples.Select(s => s.TimeS)], [.. samples.Select(s => s.PressurePa)], truth);
    }

    public static RamAnalysis Analyse(RamSite site, double[] timesS, double[] pressuresPa, bool measuresFlow = true)
    {
        var analyser = new RamAnalyser(site, measuresFlow: measuresFlow);
        analyser.Add(timesS, pressuresPa);
        return analyser.Finish("a record of the tests");
    }

    public static RamAnalysis Analyse(RamSite site, string path, TraceColumns columns)
    {
        using var trace = TraceFile.Open(path, columns);
        var analyser = new RamAnalyser(site);
        double[] timesS = new double[5000];
        double[] pressuresPa = new double[5000];
        while (trace.Read(timesS, pressuresPa) is > 0 and var count)
        {
            analyser.Add(timesS.AsSpan(0, count), pressuresPa.AsSpan(0, count));
        }

        return analyser.Finish(path, trace.SkippedRows);
    }

    /// <summary>All samples of a table in the usual columns.</summary>
    public static (double[] TimesS, double[] PressuresPa) Read(string path)
    {
        using var trace = TraceFile.Open(path, TraceColumns.Default);
        (List<double> timesS, List<double> pressuresPa) = ([], []);
        double[] times = new double[5000];
        double[] pressures = new double[5000];
        while (trace.Read(times, pressures) is > 0 and var count)
        {
            timesS.AddRange(times.AsSpan(0, count));
            pressuresPa.AddRange(pressures.AsSpan(0, count));
        }

        return ([.. timesS], [.. pressuresPa]);
    }

    /// <summary>
    /// A folder of example traces that developers keep beside the checkout; null elsewhere, and then the tests that
    /// need it list themselves as skipped.
    /// </summary>
    public static string? TracesFolder(string kind)
    {
        string? shared = Environment.GetEnvironmentVariable("CLACKBEAT_SHARED");
        for (DirectoryInfo? folder = new(AppContext.BaseDirectory); shared is null && folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Clackbeat.slnx")))
            {
                shared = Path.Combine(folder.FullName, "..", "shared");
            }
        }

        string path = Path.Combine(shared ?? "", "traces", kind);
        return Directory.Exists(path) ? path : null;
    }

    public static RamSite LoadSite(string path) => SiteFile.Load(path);

    private sealed record Recipe(
        RamSite Site, double LengthS, double RateHz, double Noise, Fault? Fault, RamCharacter Character, int Seed);
}
