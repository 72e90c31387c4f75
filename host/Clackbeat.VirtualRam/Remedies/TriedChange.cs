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
        foreach ((RemedyChange pipe, RamSite changed) in OtherPipes.For(site))
        {
            yield return new TriedChange
            {
                Change = pipe,
                Site = changed,
                Ram = ram => ram with { DrivePipe = RamDesigner.Design(changed).Ram.DrivePipe },
            };
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
}
