using Clackbeat.Site.Facts;
using Clackbeat.Site.Model;
using Clackbeat.Twin.Fitting;

namespace Clackbeat.Twin.Shifts;

/// <summary>Which parts of a ram have moved since its baseline, as facts: only those whose change exceeds its ±.</summary>
public static class MovedParts
{
    /// <summary>The facts; one that says so where no part has moved.</summary>
    /// <param name="site">The site; its stroke is taken for that of the baseline.</param>
    /// <param name="before">The twin of the baseline.</param>
    /// <param name="now">The twin of the record.</param>
    public static IReadOnlyList<Fact> Of(RamSite site, FittedTwin before, FittedTwin now)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(now);
        if (!before.Fits || !now.Fits)
        {
            return [Fact.Of("twin-moved-untold")];
        }

        Fact[] moved = [.. TwinShift.Between(before, now).Where(s => s.IsClear).Select(s => Of(site, s))];
        return moved.Length > 0 ? moved : [Fact.Of("twin-moved-none")];
    }

    private static Fact Of(RamSite site, TwinShift shift)
    {
        double ratio = Math.Exp(shift.LogRatio);
        double change = ratio - 1;
        double u = 2 * shift.StandardU * ratio;
        return shift.Part switch
        {
            RamPart.Stroke when site.WasteValve.StrokeM is { } stroke =>
                Fact.Of("twin-moved-stroke", ("from_mm", 1000 * stroke), ("to_mm", 1000 * stroke * ratio), ("u_mm", 1000 * stroke * u)),
            RamPart.Stroke => Fact.Of("twin-moved-opening", ("change_share", change), ("u_share", u)),
            RamPart.Weight => Fact.Of("twin-moved-weight", ("change_share", change), ("u_share", u)),
            RamPart.Losses => Fact.Of("twin-moved-losses", ("change_share", change), ("u_share", u)),
            RamPart.VesselHead => Fact.Of("twin-moved-vessel-head", ("change_share", change), ("u_share", u)),
            RamPart.SupplyHead => Fact.Of("twin-moved-supply", ("change_share", change), ("u_share", u)),
            RamPart.DeliveryValve => Fact.Of("twin-moved-delivery-valve", ("change_share", change), ("u_share", u)),
            _ => Fact.Of("twin-moved-gas", ("change_share", change), ("u_share", u)),
        };
    }
}
