using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.Season.Trend;

/// <summary>
/// Takes out of a figure what the supply level does to it, so that a drought is not mistaken for wear. The effect of the
/// level is learnt from pairs of days that are close in time: between them the level has moved and wear hardly has, and a pair
/// across a repair is outvoted.
/// </summary>
/// <param name="ReferenceHeadM">Supply head the figure is brought to [m]: the median of the days'.</param>
/// <param name="PerMetre">Change of the figure a metre of head, at the reference.</param>
/// <param name="PerSquareMetre">Half of how that change itself changes a metre.</param>
/// <param name="Pairs">Pairs it rests on.</param>
public sealed record HeadCorrection(double ReferenceHeadM, double PerMetre, double PerSquareMetre, int Pairs)
{
    // A month moves a stream's level while a rubber wears by a tenth of a year's worth.
    private const int NearDays = 30;
    private const int LeastPairs = 50;
    private const int Rounds = 40;

    /// <summary>Learns the effect; null where the level hardly moved or days are too few.</summary>
    /// <param name="figure">The figure by day.</param>
    /// <param name="headM">The supply head by day [m].</param>
    /// <remarks>
    /// Least absolute deviations of the pairs' differences (P. Bloomfield and W. L. Steiger, Least Absolute Deviations, 1983; by
    /// reweighting, E. J. Schlossmacher, J. Amer. Stat. Assoc. 68 (1973) 857) on the difference of the level, of its square and of the
    /// days, so that a steady drift is not laid on the level.
    /// </remarks>
    public static HeadCorrection? Learn(IReadOnlyList<DayValue> figure, IReadOnlyList<DayValue> headM)
    {
        var heads = headM.ToDictionary(d => d.Day, d => d.Value);
        DayValue[] days = [.. figure.Where(d => heads.ContainsKey(d.Day))];
        if (days.Length < 3)
        {
            return null;
        }

        double reference = Robust.Median(days.Select(d => heads[d.Day]));
        double[] level = [.. days.Select(d => heads[d.Day] - reference)];
        double noiseM = SerialCorrelation.Robust(level).Sigma;
        var pairs = new List<(double[] By, double Change)>();
        for (int i = 0; i < days.Length; i++)
        {
            for (int j = i + 1; j < days.Length && days[j].X - days[i].X <= NearDays; j++)
            {
                // A pair whose level moved no more than it jitters from day to day would only bring noise, and pull the slope to zero.
                if (Math.Abs(level[j] - level[i]) > 2 * noiseM && level[j] != level[i])
                {
                    pairs.Add((
                        [level[j] - level[i], (level[j] * level[j]) - (level[i] * level[i]), (days[j].X - days[i].X) / NearDays],
                        days[j].Value - days[i].Value));
                }
            }
        }

        return pairs.Count < LeastPairs || LeastDeviations(pairs) is not { } effect
            ? null
            : new HeadCorrection(reference, effect[0], effect[1], pairs.Count);
    }

    /// <summary>The figure as it would have been at <see cref="ReferenceHeadM"/>; days without a level stay out.</summary>
    /// <param name="figure">The figure by day.</param>
    /// <param name="headM">The supply head by day [m].</param>
    public IReadOnlyList<DayValue> Apply(IReadOnlyList<DayValue> figure, IReadOnlyList<DayValue> headM)
    {
        var heads = headM.ToDictionary(d => d.Day, d => d.Value);
        double Off(DayValue day)
        {
            double level = heads[day.Day] - ReferenceHeadM;
            return (PerMetre * level) + (PerSquareMetre * level * level);
        }

        return
        [
            .. figure.Where(d => heads.ContainsKey(d.Day))
                .Select(d => d with { Value = d.Value - Off(d), Low = d.Low - Off(d), High = d.High - Off(d) }),
        ];
    }

    private static double[]? LeastDeviations(List<(double[] By, double Change)> pairs)
    {
        double floor = 1e-6 * Math.Max(pairs.Average(p => Math.Abs(p.Change)), double.Epsilon);
        double[] effect = [0, 0, 0];
        double[] weights = [.. pairs.Select(_ => 1.0)];
        for (int round = 0; round < Rounds; round++)
        {
            Matrix<double> left = Matrix<double>.Build.Dense(3, 3);
            Vector<double> right = Vector<double>.Build.Dense(3);
            for (int p = 0; p < pairs.Count; p++)
            {
                for (int r = 0; r < 3; r++)
                {
                    right[r] += weights[p] * pairs[p].By[r] * pairs[p].Change;
                    for (int c = 0; c < 3; c++)
                    {
                        left[r, c] += weights[p] * pairs[p].By[r] * pairs[p].By[c];
                    }
                }
            }

            effect = left.Solve(right).ToArray();
            if (!effect.All(double.IsFinite))
            {
                return null;
            }

            for (int p = 0; p < pairs.Count; p++)
            {
                double[] by = pairs[p].By;
                weights[p] = 1 / Math.Max(floor, Math.Abs(pairs[p].Change - (effect[0] * by[0]) - (effect[1] * by[1]) - (effect[2] * by[2])));
            }
        }

        return effect;
    }
}
