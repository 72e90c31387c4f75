using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Remedies;

/// <summary>One change that a keeper can make, on the virtual ram and on the pipe that is judged.</summary>
internal sealed record RamChange
{
    internal required string Name { get; init; }

    internal string Meaning { get; init; } = "";

    /// <summary>The ram with the change made; everything else stays as it was, valves included.</summary>
    internal Func<RamParameters, RamParameters> Ram { get; init; } = ram => ram;

    /// <summary>The site whose pipe is judged; null leaves it.</summary>
    internal RamSite? Site { get; init; }

    internal Fault Fault { get; init; } = Fault.None;
}

/// <summary>The changes worth trying at a site.</summary>
internal static class RamChanges
{
    private const double Lighter = 0.7;
    private const double Shorter = 0.7;
    private const double MoreAir = 2;

    internal static RamChange AsItIs { get; } = new() { Name = "as it is" };

    internal static IEnumerable<RamChange> For(RamSite site)
    {
        yield return new RamChange
        {
            Name = "lighter waste valve",
            Meaning = "Three tenths less weight or spring: the valve shuts earlier, at a slower flow.",
            Ram = ram => ram with
            {
                WasteValve = ram.WasteValve with
                {
                    PreloadN = Lighter * ram.WasteValve.PreloadN,
                    SpringNPerM = Lighter * ram.WasteValve.SpringNPerM,
                },
            },
        };
        yield return new RamChange
        {
            Name = "shorter stroke",
            Meaning = "Three tenths less travel of the waste valve: less water passes before it shuts.",
            Ram = ram => ram with { WasteValve = ram.WasteValve with { TravelM = Shorter * ram.WasteValve.TravelM } },
        };
        foreach (var change in Pipes(site))
        {
            yield return change;
        }

        yield return new RamChange
        {
            Name = "twice the air in the vessel",
            Meaning = "A larger vessel, or one that has its air again.",
            Ram = ram => ram with { AirVessel = ram.AirVessel with { GasM3 = MoreAir * ram.AirVessel.GasM3 } },
        };
        yield return new RamChange
        {
            Name = "vessel without its air",
            Meaning = "No remedy: what happens when the air is lost. Check the snifter.",
            Fault = new Fault { Condition = RamCondition.AirVesselWaterlogged, Severity = 1 },
        };
    }

    private static IEnumerable<RamChange> Pipes(RamSite site)
    {
        var pipe = site.DrivePipe;
        if (Thicker(pipe) is { } row)
        {
            yield return OtherPipe(site, pipe.Material, row, $"stronger class: {row.Name}", "The same size with a thicker wall: stiffer, so it knocks a little harder, and narrower.");
        }

        foreach (var (material, words) in new[]
        {
            (PipeMaterial.GalvanisedSteel, "A stiff pipe knocks harder and lifts more, and bears far more."),
            (PipeMaterial.Pe100, "A soft pipe knocks less and lifts less; tough polyethylene hardly tires."),
        })
        {
            if (material != pipe.Material && Nearest(material, pipe.BoreM) is { } other)
            {
                yield return OtherPipe(site, material, other, material == PipeMaterial.Pe100 ? "softer pipe: PE100, SDR 11" : $"stiffer pipe: steel, {other.Name}", words);
            }
        }
    }

    // The same ram on another pipe: only the pipe changes, and its rating comes from the tables.
    private static RamChange OtherPipe(RamSite site, PipeMaterial material, CataloguePipe row, string name, string meaning)
    {
        var changed = site with
        {
            DrivePipe = site.DrivePipe with
            {
                Material = material,
                BoreM = row.OutsideDiameterM!.Value - 2 * row.WallM!.Value,
                WallM = row.WallM,
                OutsideDiameterM = row.OutsideDiameterM,
                PressureClass = row.Class,
                PressureRatingPa = null,
                WaveSpeedMPerS = null,
                RoughnessM = null,
                Threaded = material == site.DrivePipe.Material ? site.DrivePipe.Threaded : material == PipeMaterial.GalvanisedSteel,
            },
        };
        return new RamChange
        {
            Name = name,
            Meaning = meaning,
            Site = changed,
            Ram = ram => ram with { DrivePipe = RamDesigner.Design(changed).Ram.DrivePipe },
        };
    }

    private static CataloguePipe? Thicker(DrivePipe pipe)
    {
        var wall = pipe.WallM ?? (pipe.OutsideDiameterM - pipe.BoreM) / 2;
        var outside = pipe.OutsideDiameterM ?? pipe.BoreM + 2 * wall;
        return PipeCatalogue.All
            .Where(p => p.Material == pipe.Material && p.OutsideDiameterM is { } od && p.WallM is not null
                && Math.Abs(od - (outside ?? 0)) < 0.01 * od && p.WallM > 1.05 * wall)
            .MinBy(p => p.WallM);
    }

    private static CataloguePipe? Nearest(PipeMaterial material, double boreM) => material == PipeMaterial.Pe100
        ? MadeToRatio(material, boreM, 11)
        : PipeCatalogue.All
            .Where(p => p.Material == material && p.OutsideDiameterM is not null && p.WallM is not null)
            .MinBy(p => Math.Abs(p.OutsideDiameterM!.Value - 2 * p.WallM!.Value - boreM));

    // A class that every size shares: the size is the one whose bore is that of the pipe.
    private static CataloguePipe? MadeToRatio(PipeMaterial material, double boreM, double ratio)
    {
        var row = PipeCatalogue.All.FirstOrDefault(p => p.Material == material && p.DimensionRatio == ratio && p.OutsideDiameterM is null);
        var outside = boreM / (1 - 2 / ratio);
        return row is null ? null : row with { OutsideDiameterM = outside, WallM = outside / ratio };
    }
}
