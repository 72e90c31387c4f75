using Clackbeat.Hydraulics.Pipes;
using Clackbeat.Site;
using Clackbeat.Site.Model;
using Clackbeat.Site.Physics;
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

    /// <summary>Material of the drive pipe; null where it stays.</summary>
    public PipeMaterial? DrivePipeMaterial { get; init; }

    /// <summary>Wall of the drive pipe [m]; null where it stays in proportion to the bore.</summary>
    public double? DrivePipeWallM { get; init; }

    /// <summary>The drive pipe laid instead, whole, its wave speed by theory; null where it stays, or is changed in parts.</summary>
    public DrivePipe? LaidPipe { get; init; }

    /// <summary>Air in the vessel, over that of now; 1 where it stays.</summary>
    public double Air { get; init; } = 1;

    /// <summary>Air in the vessel under the pressure of the main at rest [m³], in place of <see cref="Air"/>; null where that counts.</summary>
    public double? AirM3 { get; init; }

    /// <summary>True where the vessel's air is changed.</summary>
    public bool IsOfAir => Air != 1 || AirM3 is not null;

    /// <summary>True where nothing is changed.</summary>
    public bool IsNone => this == new RamChange();

    /// <summary>True where another drive pipe is laid.</summary>
    public bool IsOtherPipe => DrivePipeLength != 1 || DrivePipeBore != 1 || IsOtherMake;

    /// <summary>True where the new drive pipe is of another material or wall, so that its wave speed follows from theory.</summary>
    public bool IsOtherMake => DrivePipeMaterial is not null || DrivePipeWallM is not null || LaidPipe is not null;

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
        return IsOtherPipe ? changed with { DrivePipe = Pipe(site) } : changed;
    }

    /// <summary>The ram after the change, but for the vessel's air: see <see cref="Clackbeat.Twin.Air.WorkingVessel"/>.</summary>
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
                TravelM = Travel(valve),
                PreloadN = Weight * valve.PreloadN,
                SpringNPerM = Weight * valve.SpringNPerM,
                MassKg = Weight * valve.MassKg,
            },
        };
        if (!IsOtherPipe)
        {
            return changed;
        }

        RamParameters other = RamDesigner.Design(Site(site)).Ram;
        return changed with { DrivePipe = other.DrivePipe, Upstream = other.Upstream };
    }

    // A valve that floats hangs short of its stop: a shorter stroke is a stop screwed in below that, a longer one changes nothing.
    private double Travel(ValveParameters valve) =>
        !valve.Floats ? Stroke * valve.TravelM : Stroke < 1 ? Stroke * valve.RestLiftM : valve.TravelM;

    private DrivePipe Pipe(RamSite site)
    {
        if (LaidPipe is { } laid)
        {
            return laid;
        }

        DrivePipe changed = Changed(site.DrivePipe);
        if (DrivePipeWallM is null || DrivePipeMaterial is not null || site.DrivePipe.IsMixed || site.DrivePipe.WaveSpeedMPerS is not { } found)
        {
            return changed;
        }

        // What the found wave speed has over theory belongs to the make, so it goes on to another wall of it.
        double theory = SiteHydraulics.Of(site with { DrivePipe = site.DrivePipe with { WaveSpeedMPerS = null } }).WaveSpeedMPerS;
        double next = SiteHydraulics.Of(site with { DrivePipe = changed }).WaveSpeedMPerS;
        return changed with { WaveSpeedMPerS = next * found / theory };
    }

    // A wider pipe of the same class: the wall grows with the bore, so the wave speed stays. Of another make class and rating aren't known.
    private DrivePipe Changed(DrivePipe pipe) => new(pipe.Sections.Select(s => IsOtherMake
        ? new PipeSection
        {
            Material = DrivePipeMaterial ?? s.Material,
            LengthM = DrivePipeLength * s.LengthM,
            BoreM = DrivePipeBore * s.BoreM,
            WallM = DrivePipeWallM ?? (DrivePipeMaterial is null ? DrivePipeBore * s.WallM : null),
        }
        : s with
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
