using System.Globalization;

namespace Clackbeat.DiagnosisStudy.Published;

/// <summary>Writes the plot and the tables of docs/published-rams.md; the words around them are written by hand.</summary>
internal static class PublishedPage
{
    public static void Write(string docs)
    {
        IReadOnlyList<LiftPoint> points = LiftStudy.Run();
        LiftPlot.Save(Path.Combine(docs, "images", "lift-over-fall.svg"), points);
        string page = Path.Combine(docs, "published-rams.md");
        string text = File.ReadAllText(page);
        text = Replace(text, "lift", LiftRows(points));
        text = Replace(text, "rams", SharedRams.Rows(Path.Combine(docs, "..", "tests", "SharedRams")));
        File.WriteAllText(page, text);
    }

    private static IEnumerable<string> LiftRows(IReadOnlyList<LiftPoint> points) =>
        points.GroupBy(p => p.LiftOverFall).Select(g => string.Create(
            CultureInfo.InvariantCulture,
            $"| {g.Key} | {Published("pocketbook", g.Key)} | {Published("bulletin", g.Key)} | {100 * LiftPlot.Middle([.. g.Select(p => p.DAubuisson)]):0} | {100 * g.Min(p => p.DAubuisson):0} to {100 * g.Max(p => p.DAubuisson):0} | {100 * LiftPlot.Middle([.. g.Select(p => p.Rankine)]):0} |"));

    private static string Published(string series, double lift)
    {
        PublishedFigure? figure = PublishedFigure.All.FirstOrDefault(f => f.Series == series && Math.Abs(f.LiftOverFall - lift) < 0.51);
        return figure is null ? "—" : string.Create(CultureInfo.InvariantCulture, $"{100 * figure.Share:0}");
    }

    // The rows of a table stand behind its head and before a comment that ends it.
    private static string Replace(string text, string name, IEnumerable<string> rows)
    {
        int from = text.IndexOf($"<!-- {name} -->", StringComparison.Ordinal);
        int head = text.IndexOf("---|\n", from, StringComparison.Ordinal) + 5;
        int to = text.IndexOf($"<!-- end of {name} -->", StringComparison.Ordinal);
        return $"{text[..head]}{string.Concat(rows.Select(r => r + "\n"))}\n{text[to..]}";
    }
}
