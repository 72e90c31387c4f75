namespace Clackbeat.Signal.Diagnosis;

/// <summary>Probabilities of the two leaks, however small; findings name only the likeliest conditions.</summary>
/// <param name="Delivery">Of a leaking delivery valve.</param>
/// <param name="Waste">Of a leaking waste valve.</param>
internal sealed record LeakOdds(double Delivery, double Waste)
{
    /// <summary>The larger one. Both are judged apart, and a ram that leaks a little at both shows it in either.</summary>
    public double Either => Math.Max(Delivery, Waste);

    /// <summary>Taken from all conditions that were judged.</summary>
    public static LeakOdds Of(IReadOnlyList<(string Condition, double Probability)> judged) => new(
        judged.First(j => j.Condition == Conditions.DeliveryValveLeaking).Probability,
        judged.First(j => j.Condition == Conditions.WasteValveLeaking).Probability);
}
