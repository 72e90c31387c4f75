using Clackbeat.Season.Store;

namespace Clackbeat.Season.Trend;

/// <summary>
/// What bursts say of the time between them: each stands for the time until the next one, but never for more than three usual
/// spacings. After that the ram is unknown, neither running nor stopped.
/// </summary>
internal static class Standing
{
    /// <summary>A burst stands for so many usual spacings at most.</summary>
    internal const double MostSpacings = 3;

    /// <summary>Every burst with the stretch it stands for, oldest first; stretches don't overlap.</summary>
    /// <param name="states">Bursts, oldest first.</param>
    public static IEnumerable<(BurstState Burst, DateTimeOffset From, DateTimeOffset To)> Of(IReadOnlyList<BurstState> states)
    {
        double usualS = UsualSpacingS(states);
        for (int i = 0; i < states.Count; i++)
        {
            BurstState burst = states[i];
            double toNextS = i + 1 < states.Count ? (states[i + 1].AtUtc - burst.AtUtc).TotalSeconds : usualS;
            double standsS = toNextS <= MostSpacings * usualS ? toNextS : Math.Max(usualS, burst.DurationS);
            yield return (burst, burst.AtUtc, burst.AtUtc.AddSeconds(standsS));
        }
    }

    private static double UsualSpacingS(IReadOnlyList<BurstState> states)
    {
        double[] spacings = [.. states.Zip(states.Skip(1), (a, b) => (b.AtUtc - a.AtUtc).TotalSeconds)];
        return spacings.Length > 0 ? Robust.Median(spacings) : states.Count > 0 ? states[0].DurationS : 0;
    }
}
