using System.Data.Common;

namespace Clackbeat.Season.Store;

/// <summary>Reads bursts, series and marks, in SQL that every store understands.</summary>
internal sealed class BurstReader(DbConnection connection)
{
    private const string InSpan = "r.name = @ram AND t.start_us >= @from AND t.start_us < @to";

    public List<string> Rams() => Rows("SELECT name FROM ram WHERE removed_of IS NULL ORDER BY name", r => r.GetString(0));

    public bool Has(string ram, byte[] sourceHash) => Rows(
        // A burst that was taken out, or that came under another name of the ram, is known too and needs no second analysis.
        """
        SELECT 1 FROM burst WHERE source_hash = @hash AND ram IN (
            SELECT id FROM ram WHERE name = @ram
            UNION SELECT merged_into FROM ram WHERE name = @ram AND merged_into IS NOT NULL
            UNION SELECT r.id FROM ram r JOIN ram o ON o.id = r.removed_of WHERE o.name = @ram)
        """,
        r => r.GetInt32(0), ("@ram", ram), ("@hash", sourceHash)).Count > 0;

    public List<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) => Rows(
        $"SELECT t.start_us, t.value, t.u, t.bound FROM figure t JOIN ram r ON r.id = t.ram WHERE {InSpan} AND t.kind = @kind ORDER BY t.start_us",
        r => new SeasonPoint(StoreTime.From(r.GetInt64(0)), r.GetDouble(1), r.IsDBNull(2) ? null : r.GetDouble(2)) { IsUpperBound = StoredBound.IsUpper(r, 3) },
        [.. Span(ram, span), ("@kind", figure.Code())]);

    public List<BurstState> States(string ram, TimeSpanUtc span) => Rows(
        $"SELECT t.start_us, t.duration_us, t.state FROM burst t JOIN ram r ON r.id = t.ram WHERE {InSpan} ORDER BY t.start_us",
        r => new BurstState(StoreTime.From(r.GetInt64(0)), r.GetInt64(1) * 1e-6, StoredState.Of(r.GetString(2))),
        Span(ram, span));

    public List<MaintenanceMark> Marks(string ram) => Rows(
        "SELECT t.at_us, t.words FROM mark t JOIN ram r ON r.id = t.ram WHERE r.name = @ram ORDER BY t.at_us, t.id",
        r => new MaintenanceMark(ram, StoreTime.From(r.GetInt64(0)), r.GetString(1)), ("@ram", ram));

    public List<(JournalEntry Entry, long? Burst)> Journal(string ram) => Rows(
        """
        SELECT t.id, t.at_us, t.who, t.what, t.was_us, t.is_us, t.was, t.becomes, t.why, t.burst
        FROM journal t JOIN ram r ON r.id = t.ram WHERE r.name = @ram ORDER BY t.id
        """,
        r => (new JournalEntry(
            r.GetInt64(0), StoreTime.From(r.GetInt64(1)), r.GetString(2), JournalWords.Of(r.GetString(3)), StoreTime.From(r.GetInt64(4)),
            r.IsDBNull(5) ? null : StoreTime.From(r.GetInt64(5)), r.GetString(6), r.IsDBNull(7) ? null : r.GetString(7), r.GetString(8)),
            r.IsDBNull(9) ? (long?)null : r.GetInt64(9)),
        ("@ram", ram));

    /// <summary>The next whole bursts after a place, oldest first; none at the end.</summary>
    public List<SeasonBurst> Page(string ram, TimeSpanUtc span, BurstPlace after, int most, out BurstPlace last)
    {
        List<(long Id, long StartUs, SeasonBurst Burst)> page = Rows(
            $"""
            SELECT t.id, t.source_hash, t.source, t.start_us, t.duration_us, t.state, t.completeness, b.packed, t.start_uncertainty_s
            FROM burst t JOIN ram r ON r.id = t.ram JOIN beats b ON b.burst = t.id
            WHERE {InSpan} AND (t.start_us, t.id) > (@start, @id) ORDER BY t.start_us, t.id LIMIT @most
            """,
            r => (r.GetInt64(0), r.GetInt64(3), Burst(ram, r)),
            [.. Span(ram, span), ("@start", after.StartUs), ("@id", after.Id), ("@most", (long)most)]);
        if (page.Count == 0)
        {
            last = after;
            return [];
        }

        last = new BurstPlace(page[^1].StartUs, page[^1].Id);
        ILookup<long, (long Burst, string Code, SeasonValue Value)> figures = Figures(ram, page[0].StartUs, last.StartUs).ToLookup(f => f.Burst);
        ILookup<long, (long Burst, string Code, double Probability)> conditions = Conditions(ram, page[0].StartUs, last.StartUs).ToLookup(c => c.Burst);
        return
        [
            .. page.Select(row => row.Burst with
            {
                Figures = figures[row.Id].Where(f => SeasonFigures.TryParse(f.Code, out _)).ToDictionary(f => Parsed(f.Code), f => f.Value),
                Conditions = conditions[row.Id].ToDictionary(c => c.Code, c => c.Probability),
            }),
        ];
    }

    private static SeasonBurst Burst(string ram, DbDataReader row) => new()
    {
        Ram = ram,
        SourceHash = row.GetFieldValue<byte[]>(1),
        Source = row.GetString(2),
        StartUtc = StoreTime.From(row.GetInt64(3)),
        DurationS = row.GetInt64(4) * 1e-6,
        State = StoredState.Of(row.GetString(5)),
        Completeness = row.GetString(6),
        Figures = new Dictionary<SeasonFigure, SeasonValue>(),
        Beats = BeatPack.Unpack(row.GetFieldValue<byte[]>(7)),
        StartUncertaintyS = row.IsDBNull(8) ? null : row.GetDouble(8),
    };

    // Figures lie in the order of kind and time: the kinds are named, so that each is one look-up and what a later program may
    // have added is passed over.
    private List<(long Burst, string Code, SeasonValue Value)> Figures(string ram, long firstUs, long lastUs) => Rows(
        $"""
        SELECT t.burst, t.kind, t.value, t.u, t.bound FROM figure t JOIN ram r ON r.id = t.ram
        WHERE r.name = @ram AND t.kind IN ({SeasonFigures.SqlList}) AND t.start_us >= @first AND t.start_us <= @last
        """,
        r => (r.GetInt64(0), r.GetString(1), new SeasonValue(r.GetDouble(2), r.IsDBNull(3) ? null : r.GetDouble(3)) { IsUpperBound = StoredBound.IsUpper(r, 4) }),
        ("@ram", ram), ("@first", firstUs), ("@last", lastUs));

    private List<(long Burst, string Code, double Probability)> Conditions(string ram, long firstUs, long lastUs) => Rows(
        """
        SELECT c.burst, c.code, c.probability FROM condition c JOIN burst t ON t.id = c.burst JOIN ram r ON r.id = t.ram
        WHERE r.name = @ram AND t.start_us >= @first AND t.start_us <= @last
        """,
        r => (r.GetInt64(0), r.GetString(1), r.GetDouble(2)),
        ("@ram", ram), ("@first", firstUs), ("@last", lastUs));

    private static SeasonFigure Parsed(string code) => SeasonFigures.TryParse(code, out SeasonFigure figure) ? figure : default;

    private static (string, object)[] Span(string ram, TimeSpanUtc span) =>
        [("@ram", ram), ("@from", StoreTime.Of(span.From)), ("@to", StoreTime.Of(span.To))];

    private List<T> Rows<T>(string sql, Func<DbDataReader, T> take, params (string Name, object Value)[] parameters) =>
        SqlRows.Of(connection, sql, take, parameters);
}

/// <summary>Where the reading of bursts has got to.</summary>
/// <param name="StartUs">Start of the last burst read.</param>
/// <param name="Id">Its number.</param>
internal readonly record struct BurstPlace(long StartUs, long Id)
{
    /// <summary>Before the first.</summary>
    public static BurstPlace Beginning { get; } = new(long.MinValue, long.MinValue);
}
