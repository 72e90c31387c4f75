using System.Data.Common;

namespace Clackbeat.Season.Store;

/// <summary>Sums up all rams of a store, in SQL that every store understands. Each ram costs a few look-ups of an index, however long its history.</summary>
internal sealed class SummaryReader(DbConnection connection)
{
    private const long DayUs = 86_400_000_000;

    // Counted back from each ram's own last burst: a ram that has been silent since spring is judged by its spring.
    private const string Last =
        """
        WITH last AS (
            SELECT r.id AS ram, r.name AS name, t.id AS burst, t.start_us AS at_us
            FROM ram r JOIN burst t ON t.id = (SELECT b.id FROM burst b WHERE b.ram = r.id ORDER BY b.start_us DESC, b.id DESC LIMIT 1)
            WHERE r.removed_of IS NULL)
        """;

    private static readonly string Asked = string.Join(" UNION ALL ", new[] { SeasonFigure.Delivered, SeasonFigure.RatingUse }.Select(f => $"SELECT '{f.Code()}' AS kind"));

    /// <summary>A summary of each ram that has a burst, by name.</summary>
    public List<RamSummary> Read()
    {
        ILookup<string, (string Ram, string Code, double Probability)> conditions = Conditions().ToLookup(c => c.Ram);
        var bursts = Bursts().ToDictionary(b => b.Ram);
        ILookup<string, (string Ram, string Code, RecentFigure Figure)> figures = Recent().ToLookup(f => f.Ram);
        var marks = Marks().ToDictionary(m => m.Ram);
        RecentFigure? Figure(string ram, SeasonFigure figure) =>
            figures[ram].Where(f => f.Code == figure.Code()).Select(f => (RecentFigure?)f.Figure).FirstOrDefault();
        return
        [
            .. LastBursts().Select(last => new RamSummary(last.Ram, last.State)
            {
                Conditions = conditions[last.Ram].ToDictionary(c => c.Code, c => c.Probability),
                SpacingS = bursts[last.Ram].SpacingS,
                BeatingShare = bursts[last.Ram].BeatingShare,
                Delivered = Figure(last.Ram, SeasonFigure.Delivered),
                RatingUse = Figure(last.Ram, SeasonFigure.RatingUse),
                LastMark = marks.GetValueOrDefault(last.Ram),
            }),
        ];
    }

    private List<(string Ram, BurstState State)> LastBursts() => SqlRows.Of(
        connection,
        $"{Last} SELECT l.name, t.start_us, t.duration_us, t.state FROM last l JOIN burst t ON t.id = l.burst ORDER BY l.name",
        r => (r.GetString(0), new BurstState(StoreTime.From(r.GetInt64(1)), r.GetInt64(2) * 1e-6, StoredState.Of(r.GetString(3)))));

    private List<(string Ram, double? SpacingS, double BeatingShare)> Bursts() => SqlRows.Of(
        connection,
        $"""
        {Last}
        SELECT l.name, COUNT(*), MAX(l.at_us) - MIN(t.start_us),
            SUM(CASE WHEN t.start_us > l.at_us - @week THEN 1 ELSE 0 END),
            SUM(CASE WHEN t.start_us > l.at_us - @week AND t.state = 'beating' THEN 1 ELSE 0 END)
        FROM last l JOIN burst t ON t.ram = l.ram AND t.start_us > l.at_us - @fortnight AND t.start_us <= l.at_us
        GROUP BY l.name
        """,
        r =>
        {
            long bursts = r.GetInt64(1);
            return (r.GetString(0), bursts > 1 ? (double?)(r.GetInt64(2) * 1e-6 / (bursts - 1)) : null, r.GetInt64(4) / (double)r.GetInt64(3));
        },
        ("@week", 7 * DayUs), ("@fortnight", 14 * DayUs));

    private List<(string Ram, string Code, RecentFigure Figure)> Recent() => [.. SqlRows.Of(
        connection,
        $"""
        {Last}, asked AS ({Asked})
        SELECT l.name, k.kind, {Means("l.at_us - @week", "l.at_us")}, {Means("l.at_us - @weeks", "l.at_us - @week")}
        FROM last l CROSS JOIN asked k
        """,
        r => (Ram: r.GetString(0), Code: r.GetString(1), Week: Mean(r, 2), Before: Mean(r, 5)),
        ("@week", 7 * DayUs), ("@weeks", 35 * DayUs))
        .Where(f => f.Week is not null).Select(f => (f.Ram, f.Code, new RecentFigure(f.Week!.Value, f.Before)))];

    // Asked one by one, since a server that joins misjudges how few rows a span has, and then reads the whole table.
    private static string Means(string after, string upTo) => string.Join(
        ", ",
        new[] { "AVG(t.value)", "AVG(t.u)", $"MAX(CASE WHEN t.bound = '{StoredBound.Upper}' THEN 1 ELSE 0 END)" }.Select(figure =>
            $"(SELECT {figure} FROM figure t WHERE t.ram = l.ram AND t.kind = k.kind AND t.start_us > {after} AND t.start_us <= {upTo})"));

    private List<(string Ram, string Code, double Probability)> Conditions() => SqlRows.Of(
        connection,
        $"{Last} SELECT l.name, c.code, c.probability FROM last l JOIN condition c ON c.burst = l.burst",
        r => (r.GetString(0), r.GetString(1), r.GetDouble(2)));

    private List<MaintenanceMark> Marks() => SqlRows.Of(
        connection,
        """
        SELECT r.name, m.at_us, m.words
        FROM ram r JOIN mark m ON m.id = (SELECT n.id FROM mark n WHERE n.ram = r.id ORDER BY n.at_us DESC, n.id DESC LIMIT 1)
        WHERE r.removed_of IS NULL
        """,
        r => new MaintenanceMark(r.GetString(0), StoreTime.From(r.GetInt64(1)), r.GetString(2)));

    private static SeasonValue? Mean(DbDataReader row, int from) => row.IsDBNull(from)
        ? null
        : new SeasonValue(row.GetDouble(from), row.IsDBNull(from + 1) ? null : row.GetDouble(from + 1)) { IsUpperBound = row.GetInt64(from + 2) > 0 };
}
