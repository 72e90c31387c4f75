namespace Clackbeat.Signal.Diagnosis;

/// <summary>An earlier recording of the same ram.</summary>
/// <param name="Name">What a reader knows it by.</param>
/// <param name="Signature">Its beats.</param>
public sealed record EarlierRecord(string Name, Signature Signature);

/// <summary>Whether a sign has grown over the recordings since the ram was well.</summary>
/// <param name="now">The record that is judged.</param>
/// <param name="well">The ram when it was well.</param>
/// <param name="earlier">Recordings between the two, oldest first.</param>
internal sealed class Growth(Signature now, Signature well, IReadOnlyList<EarlierRecord> earlier)
{
    /// <summary>A sentence about a sign's way here; null where the recordings show neither growth nor standstill.</summary>
    public string? Sentence(SignReason reason)
    {
        if (Change(now, reason.Sign) is not { } change || Math.Abs(reason.Distance) < 1e-9)
        {
            return null;
        }

        // Counted towards the side on which the sign lies now.
        double side = Math.Sign(change);
        double scatter = Math.Abs(reason.Change / reason.Distance);
        (string Name, double Value)[] before =
            [.. earlier.Select(e => (e.Name, Value: Change(e.Signature, reason.Sign))).Where(e => e.Value is not null).Select(e => (e.Name, side * e.Value!.Value))];
        if (before.Length == 0)
        {
            return null;
        }

        SignText text = SignText.Of(reason.Sign);
        string way = string.Join(", ", before.Select(b => $"{text.Amount(Math.Max(0, b.Value), scatter)} in {b.Name}"));
        return Math.Abs(change) > before.Max(b => b.Value) + scatter
            ? $"It has grown: {way}, {text.Amount(Math.Abs(change), scatter)} now."
            : before[0].Value > Math.Abs(change) - scatter ? $"It is not growing: it was so in {before[0].Name} already." : null;
    }

    private double? Change(Signature record, Sign sign) =>
        record.Signs.TryGetValue(sign, out double value) && well.Signs.TryGetValue(sign, out double before) ? value - before : null;
}
