using System.CommandLine;
using Clackbeat.Site;
using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Site.Quantities;
using Clackbeat.Twin.Air;
using Clackbeat.Twin.Changes;
using Clackbeat.VirtualRam.Design;
using Clackbeat.Words;

namespace Clackbeat.Commands.WhatIf;

/// <summary>--air: how much air the vessel holds, as "full", "lost", a volume, a change in per cent, or a range of these.</summary>
internal sealed class AirOption
{
    private const string Full = "full";

    private static readonly string[] Lost = ["lost", "none"];

    /// <summary>The option.</summary>
    public Option<string?> Option { get; } = new("--air")
    {
        Description = "Air in the air vessel: \"full\", \"lost\", a volume such as \"3 L\", \"-50 %\", or a range such as \"lost to full\"",
        HelpName = "AIR",
    };

    /// <summary>Puts the air that a command line asks for into a change.</summary>
    /// <param name="text">What was written.</param>
    /// <param name="site">The site.</param>
    /// <param name="change">The change so far.</param>
    /// <exception cref="InputException">It can't be read.</exception>
    public RamChange Apply(string text, RamSite site, RamChange change)
    {
        Setting air = Read(text, site);
        return air.Absolute is { } m3 ? change with { AirM3 = m3 } : change with { Air = air.Factor!.Value };
    }

    /// <summary>The settings of a range, in equal ratios: what a litre does grows as the air goes.</summary>
    /// <param name="from">One end.</param>
    /// <param name="to">The other.</param>
    /// <param name="site">The site.</param>
    /// <param name="change">All else that is changed.</param>
    /// <param name="steps">How many.</param>
    /// <exception cref="InputException">An end can't be read, or both are the same.</exception>
    public IEnumerable<ChangeStep> Range(string from, string to, RamSite site, RamChange change, int steps)
    {
        (Setting first, Setting last) = (Read(from, site), Read(to, site));
        if (first.Absolute is null != last.Absolute is null)
        {
            throw InputException.Of("whatif.air-ends", ("text", $"{from} to {to}"));
        }

        double Value(Setting setting) => setting.Absolute ?? setting.Factor!.Value;
        if (Value(first) == Value(last))
        {
            throw InputException.Of("whatif.no-range", ("option", Option.Name), ("text", $"{from} to {to}"));
        }

        (double perM3, string unit) = ChangeOptions.UnitOf(QuantityKind.Volume, VesselAir.LostShare, site.Units);
        for (int i = 0; i < steps; i++)
        {
            double at = Value(first) * Math.Pow(Value(last) / Value(first), i / (steps - 1.0));
            yield return first.Absolute is null
                ? new ChangeStep(ChangeOptions.Percent(at), at, change with { Air = at }) { At = 100 * (at - 1) }
                : new ChangeStep(Phrases.Format(QuantityKind.Volume, at, site.Units), 1, change with { AirM3 = at }) { IsAir = true, At = at * perM3, Unit = unit };
        }
    }

    private Setting Read(string text, RamSite site)
    {
        string word = text.Trim();
        double fullM3 = RamDesigner.Design(site).Ram.AirVessel.GasM3;
        if (word.Equals(Full, StringComparison.OrdinalIgnoreCase))
        {
            return new Setting(null, fullM3);
        }

        if (Lost.Contains(word, StringComparer.OrdinalIgnoreCase))
        {
            return new Setting(null, VesselAir.LostShare * fullM3);
        }

        Setting read;
        try
        {
            read = Setting.Parse(Option.Name, text, QuantityKind.Volume);
        }
        catch (InputException problem) when (problem.What.Code == "whatif.no-setting")
        {
            throw InputException.Of("whatif.no-air", ("text", text));
        }

        return read.Absolute is { } m3 && OutOfReach(m3, site, fullM3) is { } wrong ? throw new InputException(wrong) : read;
    }

    private static Fact? OutOfReach(double airM3, RamSite site, double fullM3)
    {
        string Say(double m3) => Phrases.Format(QuantityKind.Volume, m3, site.Units);
        double least = VesselAir.LostShare * fullM3;
        return airM3 < least ? Fact.Of("whatif.air-less", ("air_m3", Say(airM3)), ("least_m3", Say(least)))
            : site.AirVessel.VolumeM3 is { } volume && airM3 > volume ? Fact.Of("whatif.air-more", ("air_m3", Say(airM3)), ("volume_m3", Say(volume)))
            : null;
    }
}
