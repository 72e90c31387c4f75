using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.VirtualRam.Design;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.Twin.Changes;

/// <summary>What is changed on a ram; what is left out stays as it is. Factors are the new value over the old.</summary>
public sealed record RamChange
{
    /// <summary>Travel of the waste valve.</summary>
    public double Stroke { get; init; } = 1;

    /// <summary>Weight, or spring and weight, that holds the waste valve open.</summary>
    public double Weight { get; init; } = 1;

    /// <summary>How much higher the delivery outlet is than now [m].</summary>
    public double DeliveryHeadM { get; init; }

    /// <summary>How much higher the supply level is than now [m].</summary>
    public double SupplyHeadM { get; init; }

    /// <summary>Length of the drive pipe.</summary>
    public double DrivePipeLength { get; init; } = 1;

    /// <summary>Bore of the drive pipe.</summary>
    public double DrivePipeBore { get; init; } = 1;

    /// <summary>True where nothing is changed.</summary>
    public bool IsNone => this == new RamChange();

    /// <summary>The site after the change, for heads and the pipe's rating.</summary>
    /// <param name="site">The site before.</param>
    /// <exception cref="InputException">No ram can work there.</exception>
    public RamSite Site(RamSite site)
    {
        ArgumentNullException.ThrowIfNull(site);
        RamSite changed = site with
        {
            Supply = site.Supply with { HeadM = site.Supply.HeadM + SupplyHeadM },
            Delivery = site.Delivery with { HeadM = site.Delivery.HeadM + DeliveryHeadM },
        };
        return DrivePipeLength == 1 && DrivePipeBore == 1 ? changed : changed with { DrivePipe = Changed(site.DrivePipe) };
    }

    /// <summary>The ram after the change.</summary>
    /// <param name="ram">The ram before.</param>
    /// <param name="site">The site before.</param>
    public RamParameters Ram(RamParameters ram, RamSite site)
    {
        ArgumentNullException.ThrowIfNull(ram);
        ValveParameters valve = ram.WasteValve;
        RamParameters changed = ram with
        {
            Supply = ram.Supply with { HeadM = ram.Supply.HeadM + SupplyHeadM },
            DeliveryMain = ram.DeliveryMain with { OutletHeadM = ram.DeliveryMain.OutletHeadM + DeliveryHeadM },
            WasteValve = valve with
            {
                TravelM = Stroke * valve.TravelM,
                PreloadN = Weight * valve.PreloadN,
                SpringNPerM = Weight * valve.SpringNPerM,
                MassKg = Weight * valve.MassKg,
            },
        };
        if (DrivePipeLength == 1 && DrivePipeBore == 1)
        {
            return changed;
        }

        RamParameters other = RamDesigner.Design(Site(site)).Ram;
        return changed with { DrivePipe = other.DrivePipe, Upstream = other.Upstream };
    }

    // A wider pipe of the same class: the wall grows with the bore, so the wave speed stays.
    private DrivePipe Changed(DrivePipe pipe) => new(pipe.Sections.Select(s => s with
    {
        LengthM = DrivePipeLength * s.LengthM,
        BoreM = DrivePipeBore * s.BoreM,
        WallM = DrivePipeBore * s.WallM,
        OutsideDiameterM = DrivePipeBore * s.OutsideDiameterM,
    }))
    {
        Restraint = pipe.Restraint,
        HighestTemperatureC = pipe.HighestTemperatureC,
        MinorLossCoefficient = pipe.MinorLossCoefficient,
    };
}
