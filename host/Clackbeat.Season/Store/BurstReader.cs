using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Store;

/// <summary>Reads bursts, series and marks.</summary>
internal sealed class BurstReader(SqliteConnection connection)
{
    private const string InSpan = "r.name = $ram AND t.start_us >= $from AND t.start_us < $to";

    public List<string> Rams() => [.. Rows("SELECT name FROM ram ORDER BY name", r => r.GetString(0))];

    public bool Has(string ram, byte[] sourceHash) => Rows(
        "SELECT 1 FROM burst t JOIN ram r ON r.id = t.ram WHERE r.name = $ram AND t.source_hash = $hash",
        r => r.GetInt32(0), ("$ram", ram), ("$hash", sourceHash)).Any();

    public List<SeasonPoint> Series(string ram, SeasonFigure figure, TimeSpanUtc span) =>
    [
        .. Rows(
            $"SELECT t.start_us, t.value, t.u FROM figure t JOIN ram r ON r.id = t.ram WHERE {InSpan} AND t.kind = $kind ORDER BY t.start_us",
            r => new SeasonPoint(StoreTime.From(r.GetInt64(0)), r.GetDouble(1), r.IsDBNull(2) ? null : r.GetDouble(2)),
            [.. Span(ram, span), ("$kind", figure.Code())]),
    ];

    public List<BurstState> States(string ram, TimeSpanUtc span) =>
    [
        .. Rows(
            $"SELECT t.start_us, t.duration_us, t.state FROM burst t JOIN ram r ON r.id = t.ram WHERE {InSpan} ORDER BY t.start_us",
            r => new BurstState(StoreTime.From(r.GetInt64(0)), r.GetInt64(1) * 1e-6, StoredState.Of(r.GetString(2))),
            Span(ram, span)),
    ];

    public IEnumerable<SeasonBurst> Bursts(string ram, TimeSpanUtc span) => Rows(
        $"""
        SELECT t.id, t.source_hash, t.source, t.start_us, t.duration_us, t.state, t.completeness, b.packed
        FROM burst t JOIN ram r ON r.id = t.ram JOIN beats b ON b.burst = t.id WHERE {InSpan} ORDER BY t.start_us
        """,
        r => Burst(ram, r), Span(ram, span));

    public List<MaintenanceMark> Marks(string ram) =>
    [
        .. Rows(
            "SELECT t.at_us, t.words FROM mark t JOIN ram r ON r.id = t.ram WHERE r.name = $ram ORDER BY t.at_us",
            r => new MaintenanceMark(ram, StoreTime.From(r.GetInt64(0)), r.GetString(1)), ("$ram", ram)),
    ];

    private SeasonBurst Burst(string ram, SqliteDataReader row)
    {
        long id = row.GetInt64(0);
        long startUs = row.GetInt64(3);
        return new SeasonBurst
        {
            Ram = ram,
            SourceHash = row.GetFieldValue<byte[]>(1),
            Source = row.GetString(2),
            StartUtc = StoreTime.From(startUs),
            DurationS = row.GetInt64(4) * 1e-6,
            State = StoredState.Of(row.GetString(5)),
            Completeness = row.GetString(6),
            Figures = Figures(ram, startUs, id),
            Conditions = Rows("SELECT code, probability FROM condition WHERE burst = $id", r => (r.GetString(0), r.GetDouble(1)), ("$id", id))
                .ToDictionary(c => c.Item1, c => c.Item2),
            Beats = BeatPack.Unpack(row.GetFieldValue<byte[]>(7)),
        };
    }

    // One look-up a kind, since figures lie in the order of kind and time. Kinds of a later program are passed over.
    private Dictionary<SeasonFigure, SeasonValue> Figures(string ram, long startUs, long id)
    {
        var figures = new Dictionary<SeasonFigure, SeasonValue>();
        foreach (SeasonFigure figure in Enum.GetValues<SeasonFigure>())
        {
            foreach (SeasonValue value in Rows(
                """
                SELECT t.value, t.u FROM figure t JOIN ram r ON r.id = t.ram
                WHERE r.name = $ram AND t.kind = $kind AND t.start_us = $start AND t.burst = $id
                """,
                r => new SeasonValue(r.GetDouble(0), r.IsDBNull(1) ? null : r.GetDouble(1)),
                ("$ram", ram), ("$kind", figure.Code()), ("$start", startUs), ("$id", id)))
            {
                figures[figure] = value;
            }
        }

        return figures;
    }

    private static (string, object)[] Span(string ram, TimeSpanUtc span) =>
        [("$ram", ram), ("$from", StoreTime.Of(span.From)), ("$to", StoreTime.Of(span.To))];

    private IEnumerable<T> Rows<T>(string sql, Func<SqliteDataReader, T> take, params (string Name, object Value)[] parameters)
    {
        using SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The queries stand above, values go in as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object value) in parameters)
        {
            command.Parameters.AddWithValue(name, value);
        }

        using SqliteDataReader reader = command.ExecuteReader();
        while (reader.Read())
        {
            yield return take(reader);
        }
    }
}
