using System.Globalization;
using Clackbeat.Signal.Flow;
using MathNet.Numerics.Distributions;

namespace Clackbeat.Signal.Tests.Flow;

/// <summary>
/// Whether the ± of flows has the right size, on frozen fits of drawn rams that nothing was chosen on: neither too small nor too large. One
/// record a ram, so that the rows are independent. Fixtures/coverage.csv is made by
/// <c>dotnet run -c Release --project tests/Clackbeat.DiagnosisStudy -- flow-coverage FOLDER TABLE --set checking --rams 80</c>: true
/// over found, and what the ± is made of. The ± itself is worked out here by the program's own rules.
/// </summary>
/// <remarks>
/// The ± is to hold in 90 of a hundred at least. Of n rows at least as many must be inside as a binomial count of n throws of 0.90 reaches
/// in 97.5 % of trials. For the other side errors are taken as normal: k = 2 holds 95 %, so half of the ± holds 68 % (JCGM 100:2008, table
/// G.1). No more rows may be inside half of the ± than a count of n throws of 0.68 stays under in 97.5 % of trials. With 74 rows the
/// bounds are 61 and 58. A ± that holds 90 % and is then a third too small holds 1.10 deviations, 73 % or 54 rows; one that holds 90 % and is
/// then twice too large holds 90 % within its half, 67 rows. Each test shows that the rows tell such a ± from the right one.
/// </remarks>
public class CoverageTests
{
    private const double LeastInside = 0.90;
    private const double MostInsideHalf = 0.68;
    private const double Tail = 0.025;

    private static readonly List<Row> Rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Fixtures", "coverage.csv")).Skip(1).Select(Read)];

    [Fact]
    public void There_are_enough_rows_to_tell() => Assert.InRange(Rows.Count, 60, 200);

    [Theory]
    [InlineData("delivered")]
    [InlineData("waste")]
    public void The_uncertainty_of_a_flow_is_not_too_small(string flow)
    {
        int least = Quantile(LeastInside, Tail);

        Assert.InRange(Inside(flow, 1), least, Rows.Count);
        Assert.True(Inside(flow, 2.0 / 3) < least, $"a third smaller it would still hold {Inside(flow, 2.0 / 3)} of {Rows.Count} times");
    }

    [Theory]
    [InlineData("delivered")]
    [InlineData("waste")]
    public void The_uncertainty_of_a_flow_is_not_too_large(string flow)
    {
        int most = Quantile(MostInsideHalf, 1 - Tail);

        Assert.InRange(Inside(flow, 0.5), 0, most);
        Assert.True(Inside(flow, 1) > most, $"twice as large its half would still hold only {Inside(flow, 1)} of {Rows.Count} times");
    }

    /// <summary>Rows whose true value lies within so much of the stated ± (k = 2).</summary>
    private static int Inside(string flow, double times) => Rows.Count(r =>
    {
        (double trueOverFound, double u) = flow is "delivered" ? (r.Delivered, r.Evidence.Delivered) : (r.Waste, r.Evidence.Waste);
        return Math.Abs(trueOverFound - 1) <= 2 * u * times;
    });

    /// <summary>The smallest count that n throws stay at or under in a share of trials.</summary>
    private static int Quantile(double chance, double share) =>
        Enumerable.Range(0, Rows.Count + 1).First(k => Binomial.CDF(chance, Rows.Count, k) >= share);

    private static Row Read(string line)
    {
        double[] n = [.. line.Split(',').Skip(2).Select(cell => double.Parse(cell, CultureInfo.InvariantCulture))];
        return new Row(n[0], n[1], new FlowEvidence(n[3], n[4], n[5], n[6], n[7], n[8], n[9], n[10] > 0, n[11] > 0));
    }

    private sealed record Row(double Delivered, double Waste, FlowEvidence Evidence);
}
