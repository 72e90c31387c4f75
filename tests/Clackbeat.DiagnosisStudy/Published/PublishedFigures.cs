using System.Globalization;

namespace Clackbeat.DiagnosisStudy.Published;

/// <summary>One published efficiency.</summary>
/// <param name="Series">Which source.</param>
/// <param name="LiftOverFall">Delivery head over supply head.</param>
/// <param name="Share">Efficiency, of 1; the sources don't say by which definition.</param>
internal sealed record PublishedFigure(string Series, double LiftOverFall, double Share)
{
    /// <summary>All that are kept in Data/published-efficiency.csv, with their sources.</summary>
    public static IReadOnlyList<PublishedFigure> All { get; } =
    [
        .. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Data", "published-efficiency.csv"))
            .Where(l => !l.StartsWith('#')).Skip(1)
            .Select(l => l.Split(','))
            .Select(c => new PublishedFigure(c[0], Number(c[1]), Number(c[2]))),
    ];

    private static double Number(string cell) => double.Parse(cell, CultureInfo.InvariantCulture);
}
