using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Hydraulics.Rating;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Conditions;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Remedies;

/// <summary>One change that a keeper can make, on the virtual ram and on the pipe that is judged.</summary>
internal sealed record TriedChange
{
    internal required RemedyChange Change { get; init; }

    /// <summary>The ram with the change made; everything else stays as it was, valves included.</summary>
    internal Func<RamParameters, RamParameters> Ram { get; init; } = ram => ram;

    /// <summary>The site whose pipe is judged; null leaves it.</summary>
    internal RamSite? Site { get; init; }

    internal Fault Fault { get; init; } = Fault.None;
}

/// <summary>The changes worth trying at a site.</summary>
internal static class TriedChanges
{
    private const double ThreeTenths = 0.3;
    private const double MoreAir = 2;

    internal static TriedChange AsItIs { get; } = new() { Change = new RemedyChange(RemedyCode.AsItIs) };

    internal static IEnumerable<TriedChange> For(RamSite site)
    {
        yield return new TriedChange
        {
            Change = new RemedyChange(RemedyCode.LighterValve),
            Ram = ram => ram with { WasteValve = ram.WasteValve.Changed(ValveChange.WeakerSpring, ThreeTenths) },
        };
        yield return new TriedChange
        {
            Change = new RemedyChange(RemedyCode.ShorterStroke),
            Ram = ram => ram with { WasteValve = ram.WasteValve.Changed(ValveChange.ShorterStroke, ThreeTenths) },
        };
        foreach (TriedChange change in Pipes(site))
        {
            yield return change;
        }

        yield return new TriedChange
        {
            Change = new RemedyChange(RemedyCode.MoreAir),
            Ram = ram => ram with { AirVessel = ram.AirVessel with { GasM3 = MoreAir * ram.AirVessel.GasM3 } },
        };
        yield return new TriedChange
        {
            Change = new RemedyChange(RemedyCode.NoAir),
            Fault = new Fault { Condition = RamCondition.AirVesselWaterlogged, Severity = 1 },
        };
    }

    private static IEnumerable<TriedChange> Pipes(RamSite site)
    {
        DrivePipe pipe = site.DrivePipe;
        if (Thicker(pipe) is { } row)
        {
            yield return OtherPipe(site, pipe.Material, row, new RemedyChange(RemedyCode.StrongerClass, row.Name));
        }

        foreach (PipeMaterial material in new[] { PipeMaterial.GalvanisedSteel, PipeMaterial.Pe100 })
        {
            if (material != pipe.Material && Nearest(material, pipe.BoreM) is { } other)
            {
                yield return OtherPipe(
                    site, material, other, new RemedyChange(material == PipeMaterial.Pe100 ? RemedyCode.SofterPipe : RemedyCode.StifferPipe, other.Name));
            }
        }
    }

    // The same ram on another pipe: only the pipe changes, and its rating comes from the tables.
    private static TriedChange OtherPipe(RamSite site, PipeMaterial material, CataloguePipe row, RemedyChange change)
    {
        RamSite changed = site with
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
        return new TriedChange
        {
            Change = change,
            Site = changed,
            Ram = ram => ram with { DrivePipe = RamDesigner.Design(changed).Ram.DrivePipe },
        };
    }

    private static CataloguePipe? Thicker(DrivePipe pipe)
    {
        double? wall = pipe.WallM ?? (pipe.OutsideDiameterM - pipe.BoreM) / 2;
        double? outside = pipe.OutsideDiameterM ?? pipe.BoreM + 2 * wall;
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
        CataloguePipe? row = PipeCatalogue.All.FirstOrDefault(p => p.Material == material && p.DimensionRatio == ratio && p.OutsideDiameterM is null);
        double outside = boreM / (1 - 2 / ratio);
        return row is null ? null : row with { OutsideDiameterM = outside, WallM = outside / ratio };
    }
}
