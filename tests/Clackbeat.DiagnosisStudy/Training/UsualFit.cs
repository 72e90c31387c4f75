using Clackbeat.Signal.Diagnosis;
using MathNet.Numerics.LinearAlgebra;

namespace Clackbeat.DiagnosisStudy.Training;

/// <summary>Finds what is usual: how the signs of well rams move with site and recording, and how far they scatter around that.</summary>
internal static class UsualFit
{
    // In units of one well record; some records a term are plenty.
    private const double Ridge = 10;
    private const double Outlier = 4;
    private const int Rounds = 3;

    /// <summary>Fits all signs.</summary>
    /// <param name="rows">Rows, well and ill.</param>
    /// <param name="changes">The signs are changes: with the same circumstances a well ram's are 0 by definition.</param>
    public static UsualSigns Of(IReadOnlyList<StudyRow> rows, bool changes)
    {
        StudyRow[] well = [.. rows.Where(r => r.Conditions.Count == 0)];
        (double, double)[] circumstances = [.. Enum.GetValues<Circumstance>().Select(c => Spread(well, c, changes))];
        return new UsualSigns(Expectations.Used.ToDictionary(s => s, s => Of(rows, well, s, circumstances, changes)), circumstances);
    }

    private static UsualSign Of(IReadOnlyList<StudyRow> rows, StudyRow[] well, Sign sign, (double, double)[] circumstances, bool changes)
    {
        StudyRow[] known = [.. well.Where(r => r.Signs.ContainsKey(sign))];
        double[] all = [.. rows.Where(r => r.Signs.ContainsKey(sign)).Select(r => r.Signs[sign]).Order()];
        double[][] terms = [.. known.Select(r => UsualSigns.Terms(r.Circumstances, circumstances))];
        double[] values = [.. known.Select(r => r.Signs[sign])];
        double centre = changes ? 0 : At([.. values.Order()], 0.5);
        double[] slopes = new double[2 * circumstances.Length];
        double scale = double.PositiveInfinity;
        for (int round = 0; round < Rounds; round++)
        {
            (centre, slopes) = Fit(terms, values, centre, slopes, scale, changes);
            double[] off = [.. terms.Select((t, i) => Math.Abs(values[i] - centre - Dot(t, slopes))).Order()];

            // Three quarters of normal values lie within 1.15 standard deviations.
            scale = Math.Max(At(off, 0.75) / 1.15, Expectations.FloorOf(sign));
        }

        return new UsualSign(centre, scale, At(all, 0.002), At(all, 0.998), slopes);
    }

    private static (double Centre, double[] Slopes) Fit(
        double[][] terms, double[] values, double centre, double[] slopes, double scale, bool changes)
    {
        int count = slopes.Length + 1;
        var normal = Matrix<double>.Build.DenseDiagonal(count, count, Ridge);
        normal[count - 1, count - 1] = changes ? 1e12 : 1e-9;
        var right = Vector<double>.Build.Dense(count);
        for (int i = 0; i < values.Length; i++)
        {
            if (Math.Abs(values[i] - centre - Dot(terms[i], slopes)) > Outlier * scale)
            {
                continue;
            }

            var row = Vector<double>.Build.Dense([.. terms[i], 1]);
            normal += row.OuterProduct(row);
            right += values[i] * row;
        }

        Vector<double> found = normal.Solve(right);
        return (changes ? 0 : found[count - 1], found.SubVector(0, count - 1).ToArray());
    }

    private static (double Middle, double Spread) Spread(StudyRow[] well, Circumstance circumstance, bool changes)
    {
        double[] values = [.. well.Where(r => r.Circumstances.ContainsKey(circumstance)).Select(r => r.Circumstances[circumstance])];
        double middle = changes || values.Length == 0 ? 0 : values.Average();
        return (middle, values.Length == 0 ? 0 : Math.Sqrt(values.Average(v => (v - middle) * (v - middle))));
    }

    private static double Dot(double[] terms, double[] slopes) => terms.Zip(slopes, (t, s) => t * s).Sum();

    private static double At(double[] sorted, double share) =>
        sorted.Length == 0 ? 0 : sorted[(int)Math.Round(share * (sorted.Length - 1))];
}
