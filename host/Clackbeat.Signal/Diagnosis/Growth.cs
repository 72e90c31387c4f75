using Clackbeat.Site.Facts;

namespace Clackbeat.Signal.Diagnosis;

/// <summary>An earlier recording of the same ram.</summary>
/// <param name="Name">What a reader knows it by.</param>
/// <param name="Signature">Its beats.</param>
public sealed record EarlierRecord(string Name, Signature Signature);

/// <summary>Whether a feature has grown over the recordings since the ram was well.</summary>
/// <param name="now">The record that is judged.</param>
/// <param name="well">The ram when it was well.</param>
/// <param name="earlier">Recordings between the two, oldest first.</param>
internal sealed class Growth(Signature now, Signature well, IReadOnlyList<EarlierRecord> earlier)
{
    /// <summary>The feature's way here; null where the recordings show neither growth nor standstill.</summary>
    public Fact? Of(FeatureAttribution reason)
    {
        if (Change(now, reason.Feature) is not { } change || Math.Abs(reason.ZScore) < 1e-9)
        {
            return null;
        }

        // Counted towards the side on which the feature lies now.
        double side = Math.Sign(change);
        double deviation = Math.Abs(reason.Change / reason.ZScore);
        (string Name, double Value)[] before =
            [.. earlier.Select(e => (e.Name, Value: Change(e.Signature, reason.Feature))).Where(e => e.Value is not null).Select(e => (e.Name, side * e.Value!.Value))];
        if (before.Length == 0)
        {
            return null;
        }

        var traits = FeatureTraits.Of(reason.Feature);
        if (Math.Abs(change) <= before.Max(b => b.Value) + deviation)
        {
            return before[0].Value > Math.Abs(change) - deviation ? Fact.Of("evidence-not-growing", ("record", before[0].Name)) : null;
        }

        Fact[] way = [.. before.Select(b => Fact.Of("growth-step", ("size", traits.Size(Math.Max(0, b.Value), deviation)), ("record", b.Name)))];
        return Fact.Of("evidence-grown", ("way", way), ("now", traits.Size(Math.Abs(change), deviation)));
    }

    private double? Change(Signature record, Feature feature) =>
        record.Features.TryGetValue(feature, out double value) && well.Features.TryGetValue(feature, out double before) ? value - before : null;
}
