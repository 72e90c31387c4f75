using Clackbeat.Season.Store;
using MathNet.Numerics.Statistics;

namespace Clackbeat.Season.Trend;

/// <summary>What the store keeps of each beat.</summary>
public enum BeatPart
{
    /// <summary>From closure to closure [s].</summary>
    Interval,

    /// <summary>Largest sample [Pa].</summary>
    Peak,

    /// <summary>Delivery plateau [Pa].</summary>
    Delivery,

    /// <summary>Lowest sample [Pa].</summary>
    Suction,

    /// <summary>Velocity in the drive pipe as the waste valve shuts [m/s].</summary>
    ClosingVelocity,

    /// <summary>Volume through the delivery valve [m³].</summary>
    Delivered,

    /// <summary>Volume through the waste valve [m³].</summary>
    Waste,
}

/// <summary>How a part of the beat is spread over many beats.</summary>
/// <param name="Median">Median, SI.</param>
/// <param name="Low">5th percentile.</param>
/// <param name="High">95th percentile.</param>
/// <param name="Beats">Beats it rests on.</param>
public readonly record struct BeatSpread(double Median, double Low, double High, int Beats)
{
    /// <summary>All parts that the beats of some bursts have.</summary>
    /// <param name="bursts">The bursts.</param>
    public static IReadOnlyDictionary<BeatPart, BeatSpread> Of(IEnumerable<SeasonBurst> bursts)
    {
        SeasonBeat[] beats = [.. bursts.SelectMany(b => b.Beats)];
        return Enum.GetValues<BeatPart>()
            .Select(part => (Part: part, Values: beats.Select(b => Value(b, part)).OfType<double>().Order().ToArray()))
            .Where(p => p.Values.Length > 0)
            .ToDictionary(p => p.Part, p => Of(p.Values));
    }

    private static BeatSpread Of(double[] sorted) => new(
        SortedArrayStatistics.Median(sorted), SortedArrayStatistics.Quantile(sorted, 0.05), SortedArrayStatistics.Quantile(sorted, 0.95), sorted.Length);

    private static double? Value(SeasonBeat beat, BeatPart part) => part switch
    {
        BeatPart.Interval => beat.IntervalS,
        BeatPart.Peak => beat.PeakPa,
        BeatPart.Delivery => beat.DeliveryPa,
        BeatPart.Suction => beat.SuctionPa,
        BeatPart.ClosingVelocity => beat.Flow?.ClosingVelocityMPerS,
        BeatPart.Delivered => beat.Flow?.DeliveredM3,
        _ => beat.Flow?.WasteM3,
    };
}
