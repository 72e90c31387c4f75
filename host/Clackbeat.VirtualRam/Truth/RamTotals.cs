using Clackbeat.Hydraulics.Water;
using Clackbeat.VirtualRam.Parameters;

namespace Clackbeat.VirtualRam.Truth;

/// <summary>Sums over whole beats; definitions as everywhere in this project: drawn is waste plus delivered.</summary>
public sealed class RamTotals
{
    private readonly double _weight;

    /// <summary>Empty sums for a ram.</summary>
    public RamTotals(RamParameters ram)
    {
        ArgumentNullException.ThrowIfNull(ram);
        _weight = ram.Water.DensityKgPerM3 * Constants.GravityMPerS2;
        SupplyHeadM = ram.Supply.HeadM;
        DeliveryHeadM = ram.DeliveryMain.OutletHeadM;
    }

    /// <summary>Supply head that acted [m].</summary>
    public double SupplyHeadM { get; }

    /// <summary>Static delivery head [m].</summary>
    public double DeliveryHeadM { get; }

    /// <summary>Whole beats.</summary>
    public int Beats { get; private set; }

    /// <summary>Their time [s].</summary>
    public double DurationS { get; private set; }

    /// <summary>Volume through the waste valve [m³].</summary>
    public double WasteM3 { get; private set; }

    /// <summary>Volume through the delivery valve [m³].</summary>
    public double DeliveredM3 { get; private set; }

    /// <summary>Volume that arrived at the outlet of the main [m³].</summary>
    public double ArrivedM3 { get; private set; }

    /// <summary>Energy through the delivery valve [J].</summary>
    public double DeliveredJ { get; private set; }

    /// <summary>Volume drawn from the supply [m³].</summary>
    public double DrawnM3 => WasteM3 + DeliveredM3;

    /// <summary>Beats a minute; null without a whole beat.</summary>
    public double? BeatsPerMin => Beats > 0 ? 60 * Beats / DurationS : null;

    /// <summary>q h / ((q + w) H).</summary>
    public double? DAubuisson => Beats > 0 ? DeliveredM3 * DeliveryHeadM / (DrawnM3 * SupplyHeadM) : null;

    /// <summary>q (h − H) / (w H).</summary>
    public double? Rankine =>
        Beats > 0 ? DeliveredM3 * (DeliveryHeadM - SupplyHeadM) / (WasteM3 * SupplyHeadM) : null;

    /// <summary>Energy through the delivery valve over ρ g H × drawn.</summary>
    public double? DriveSide => Beats > 0 ? DeliveredJ / (_weight * SupplyHeadM * DrawnM3) : null;

    /// <summary>Adds a beat.</summary>
    public void Add(VirtualBeat beat)
    {
        ArgumentNullException.ThrowIfNull(beat);
        Beats++;
        DurationS += beat.IntervalS;
        WasteM3 += beat.WasteM3;
        DeliveredM3 += beat.DeliveredM3;
        ArrivedM3 += beat.ArrivedM3;
        DeliveredJ += beat.DeliveredJ;
    }
}
