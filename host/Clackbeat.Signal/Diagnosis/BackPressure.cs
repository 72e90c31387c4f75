using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>
/// Back pressure in the open phase: with the outlet of the waste valve under water, the body rests at that water's height while the
/// valve is open. The mean pressure over whole beats is still the supply's less the losses. A zero that moved would move both.
/// </summary>
internal static class BackPressure
{
    private const double LeastPa = 1000;
    private const double LeastShare = 0.06;

    // What the mean may have moved by, of the rise of the open level, and the plateau at most.
    private const double Still = 0.35;
    private const double LargestRise = 0.5;

    /// <summary>The rise of the open level alone; null where there is none.</summary>
    /// <param name="now">The record.</param>
    /// <param name="well">The same ram when it was well.</param>
    /// <param name="supplyPa">Pressure of the supply head [Pa].</param>
    /// <param name="metrePa">Pressure of a metre of water [Pa].</param>
    public static Fact? Find(Signature now, Signature well, double supplyPa, double metrePa)
    {
        if (!now.Features.TryGetValue(Feature.MeanHead, out double nowMean) || !well.Features.TryGetValue(Feature.MeanHead, out double wellMean))
        {
            return null;
        }

        double open = now.OpenPa - well.OpenPa;
        double mean = open + ((nowMean - wellMean) * supplyPa);
        double plateau = now.DeliveryPa - well.DeliveryPa;
        return open > Math.Max(LeastPa, LeastShare * supplyPa) && Math.Abs(mean) < Still * open && plateau < LargestRise * open
            ? Fact.Of("outlet-drowned", ("rise_kpa", open / 1000), ("depth_m", open / metrePa))
            : null;
    }
}
