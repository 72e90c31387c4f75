namespace Clackbeat.Season.Trend;

/// <summary>
/// Takes out of a figure what the supply level does to it, so that a drought is not mistaken for wear. The effect of the
/// level is learnt from pairs of days that are close in time: between them the level has moved and wear hardly has, and a pair
/// across a repair is outvoted.
/// </summary>
/// <param name="ReferenceHeadM">Supply head the figure is brought to [m].</param>
/// <param name="PerMetre">Change of the figure a metre of head, weighted median over the pairs.</param>
/// <param name="Pairs">Pairs it rests on.</param>
public sealed record HeadCorrection(double ReferenceHeadM, double PerMetre, int Pairs)
{
    // A month moves a stream's level while a rubber wears by a tenth of a year's worth.
    private const int NearDays = 30;
    private const int LeastPairs = 50;

    /// <summary>Learns the effect; null where the level hardly moved or days are too few.</summary>
    /// <param name="figure">The figure by day.</param>
    /// <param name="headM">The supply head by day [m].</param>
    /// <remarks>
    /// Weighting each pair's slope by its change of level makes the weighted median the least-absolute-deviations slope of the
    /// differences (Bloomfield and Steiger, Least Absolute Deviations, 1983, §1). The relation is taken as straight over the range met.
    /// </remarks>
    public static HeadCorrection? Learn(IReadOnlyList<DayValue> figure, IReadOnlyList<DayValue> headM)
    {
        Dictionary<DateOnly, double> heads = headM.ToDictionary(d => d.Day, d => d.Value);
        DayValue[] days = [.. figure.Where(d => heads.ContainsKey(d.Day))];
        if (days.Length < 3)
        {
            return null;
        }

        double noiseM = SerialCorrelation.Robust([.. days.Select(d => heads[d.Day])]).Sigma;
        var slopes = new List<(double Slope, double Weight)>();
        for (int i = 0; i < days.Length; i++)
        {
            for (int j = i + 1; j < days.Length && days[j].X - days[i].X <= NearDays; j++)
            {
                double moved = heads[days[j].Day] - heads[days[i].Day];

                // A pair whose level moved no more than it jitters from day to day would only bring noise, and pull the slope to zero.
                if (Math.Abs(moved) > 2 * noiseM && moved != 0)
                {
                    slopes.Add(((days[j].Value - days[i].Value) / moved, Math.Abs(moved)));
                }
            }
        }

        double[] sorted = [.. days.Select(d => heads[d.Day]).Order()];
        return slopes.Count < LeastPairs ? null : new HeadCorrection(sorted[sorted.Length / 2], WeightedMedian(slopes), slopes.Count);
    }

    /// <summary>The figure as it would have been at <see cref="ReferenceHeadM"/>; days without a level stay out.</summary>
    /// <param name="figure">The figure by day.</param>
    /// <param name="headM">The supply head by day [m].</param>
    public IReadOnlyList<DayValue> Apply(IReadOnlyList<DayValue> figure, IReadOnlyList<DayValue> headM)
    {
        Dictionary<DateOnly, double> heads = headM.ToDictionary(d => d.Day, d => d.Value);
        double Off(DayValue day) => PerMetre * (heads[day.Day] - ReferenceHeadM);
        return
        [
            .. figure.Where(d => heads.ContainsKey(d.Day))
                .Select(d => d with { Value = d.Value - Off(d), Low = d.Low - Off(d), High = d.High - Off(d) }),
        ];
    }

    private static double WeightedMedian(List<(double Slope, double Weight)> slopes)
    {
        double half = slopes.Sum(s => s.Weight) / 2;
        double sum = 0;
        return slopes.OrderBy(s => s.Slope).First(s => (sum += s.Weight) >= half).Slope;
    }
}
