using System.Data.Common;
using System.Globalization;

namespace Clackbeat.Season.Store;

/// <summary>
/// Writes bursts and marks within a transaction of its caller, in SQL that every store understands, a few statements a burst so
/// that a far server is asked a few times only.
/// </summary>
internal sealed class BurstWriter(DbConnection connection) : IDisposable
{
    private readonly StoreCommands _commands = new(connection);

    private const string InsertBurst =
        """
        INSERT INTO burst (ram, source_hash, source, start_us, duration_us, state, beat_count, completeness, start_uncertainty_s, merged_from)
        VALUES (@p0, @p1, @p2, @p3, @p4, @p5, @p6, @p7, @p8, @p9) ON CONFLICT (ram, source_hash) DO NOTHING RETURNING id
        """;

    /// <summary>The ram under which what was taken out is kept.</summary>
    internal const string FindRemoved = "SELECT id FROM ram WHERE removed_of = @p0 AND merged_into IS NULL";

    // Rams that no list shows: what was taken out of a ram, other names of it, and what was taken out of those.
    private const string FindHidden =
        """
        SELECT 1 FROM burst WHERE source_hash = @p1 AND ram IN (
            SELECT id FROM ram WHERE removed_of = @p0 OR removed_of IN (SELECT id FROM ram WHERE merged_into = @p0))
        """;

    private const string FindNear = "SELECT id FROM burst WHERE ram = @p0 AND start_us >= @p1 AND start_us <= @p2 AND source_hash <> @p3 LIMIT 1";

    private const string ReadNear =
        """
        SELECT t.source, t.start_us, t.duration_us, t.source_hash, b.packed FROM burst t JOIN beats b ON b.burst = t.id
        WHERE t.ram = @p0 AND t.start_us >= @p1 AND t.start_us <= @p2 AND t.source_hash <> @p3
        """;

    // Bursts of one message to a server: some hundred kilobytes.
    private const int AMessage = 100;

    /// <summary>Writes bursts; those that are there stay as they are.</summary>
    /// <returns>How many were new.</returns>
    public int Add(IEnumerable<SeasonBurst> bursts, DbTransaction transaction) => connection.CanCreateBatch
        ? bursts.Chunk(AMessage).Sum(chunk => Send([.. Wanted(chunk, transaction)], transaction))
        : Wanted([.. bursts], transaction).Count(burst => Add(burst, transaction));

    // Neither what a keeper took out, nor the beginning of what is there; the beginning itself gives way to the longer burst.
    private IEnumerable<SeasonBurst> Wanted(IReadOnlyCollection<SeasonBurst> bursts, DbTransaction transaction)
    {
        foreach (IGrouping<string, SeasonBurst> ram in bursts.GroupBy(b => b.Ram))
        {
            long id = RamOf(ram.Key, transaction);
            bool hides = Scalar(transaction, "SELECT 1 FROM ram WHERE removed_of = @p0 LIMIT 1", id) is not null;
            HashSet<SeasonBurst> near = Near(id, ram, transaction);
            foreach (SeasonBurst burst in ram)
            {
                if (!(hides && Scalar(transaction, FindHidden, id, burst.SourceHash) is not null)
                    && !(near.Contains(burst) && GivesWay(id, burst, transaction)))
                {
                    yield return burst;
                }
            }
        }
    }

    // Those that begin with a burst of another hash that is stored: one question for each, in one message where that can be.
    private HashSet<SeasonBurst> Near(long ram, IEnumerable<SeasonBurst> bursts, DbTransaction transaction)
    {
        SeasonBurst[] all = [.. bursts];
        if (!connection.CanCreateBatch)
        {
            return [.. all.Where(b => Scalar(transaction, FindNear, StartsNear(ram, b)) is not null)];
        }

        var near = new HashSet<SeasonBurst>();
        using DbBatch message = _commands.Batch(transaction, all.Select(b => (FindNear, StartsNear(ram, b))));
        using DbDataReader rows = message.ExecuteReader();
        foreach (SeasonBurst burst in all)
        {
            if (rows.Read())
            {
                near.Add(burst);
            }

            rows.NextResult();
        }

        return near;
    }

    private static object?[] StartsNear(long ram, SeasonBurst burst)
    {
        long startUs = StoreTime.Of(burst.StartUtc);
        return [ram, startUs - RunningRecording.SameStartUs, startUs + RunningRecording.SameStartUs, burst.SourceHash];
    }

    // True where the new one is the beginning of a stored one; a stored beginning of the new one is put aside.
    private bool GivesWay(long ram, SeasonBurst burst, DbTransaction transaction)
    {
        List<(string Source, long StartUs, double DurationS, byte[] Hash, IReadOnlyList<SeasonBeat> Beats)> stored = [];
        using (DbDataReader rows = _commands.Of(ReadNear, transaction, StartsNear(ram, burst)).ExecuteReader())
        {
            while (rows.Read())
            {
                stored.Add((rows.GetString(0), rows.GetInt64(1), rows.GetInt64(2) * 1e-6, rows.GetFieldValue<byte[]>(3), BeatPack.Unpack(rows.GetFieldValue<byte[]>(4))));
            }
        }

        foreach ((string source, long startUs, double durationS, byte[] hash, IReadOnlyList<SeasonBeat> beats) in stored)
        {
            if (!RunningRecording.IsOne(burst.Source, burst.Beats, source, beats))
            {
                continue;
            }

            if (durationS >= burst.DurationS)
            {
                return true;
            }

            SeasonBurst shorter = burst with { SourceHash = hash, Source = source, StartUtc = StoreTime.From(startUs) };
            new StoreCorrector(this).Remove(
                shorter, JournalAction.BurstReplaced, new CorrectionNote("clackbeat", "the same recording, logged again when it was longer", DateTimeOffset.UtcNow), transaction);
        }

        return false;
    }

    private bool Add(SeasonBurst burst, DbTransaction transaction)
    {
        long ram = RamOf(burst.Ram, transaction);
        if (Scalar(transaction, InsertBurst, Values(burst, ram, OtherNameOf(burst.Ram, transaction))) is not long id)
        {
            return false;
        }

        foreach ((string sql, object?[] values) in Rest(burst, ram, id))
        {
            Run(transaction, sql, values);
        }

        return true;
    }

    // Two messages for many bursts, however far the server is: first what gives them their numbers, then all the rest.
    private int Send(SeasonBurst[] bursts, DbTransaction transaction)
    {
        var rams = bursts.Select(b => b.Ram).Distinct().ToDictionary(name => name, name => (Id: RamOf(name, transaction), Other: OtherNameOf(name, transaction)));
        var fresh = new List<(SeasonBurst Burst, long Id)>();
        using (DbBatch first = _commands.Batch(transaction, bursts.Select(b => (InsertBurst, Values(b, rams[b.Ram].Id, rams[b.Ram].Other)))))
        using (DbDataReader ids = first.ExecuteReader())
        {
            foreach (SeasonBurst burst in bursts)
            {
                if (ids.Read())
                {
                    fresh.Add((burst, ids.GetInt64(0)));
                }

                ids.NextResult();
            }
        }

        if (fresh.Count > 0)
        {
            using DbBatch second = _commands.Batch(transaction, fresh.SelectMany(f => Rest(f.Burst, rams[f.Burst.Ram].Id, f.Id)));
            second.ExecuteNonQuery();
        }

        return fresh.Count;
    }

    private static object?[] Values(SeasonBurst burst, long ram, long? otherName) =>
    [
        ram, burst.SourceHash, burst.Source, StoreTime.Of(burst.StartUtc), (long)Math.Round(burst.DurationS * 1e6),
        StoredState.Word(burst.State), (long)burst.Beats.Count, burst.Completeness,
        burst.StartUncertaintyS, otherName,
    ];

    // What hangs on a burst's number.
    private static IEnumerable<(string Sql, object?[] Values)> Rest(SeasonBurst burst, long ram, long id)
    {
        long startUs = StoreTime.Of(burst.StartUtc);
        object?[] figures = [.. burst.Figures.Where(f => double.IsFinite(f.Value.Value)).SelectMany(f => new object?[] { ram, f.Key.Code(), startUs, id, f.Value.Value, f.Value.U, StoredBound.Word(f.Value.IsUpperBound) })];
        if (figures.Length > 0)
        {
            yield return (Rows("INSERT INTO figure (ram, kind, start_us, burst, value, u, bound) VALUES", 7, figures.Length), figures);
        }

        object?[] conditions = [.. burst.Conditions.SelectMany(c => new object?[] { id, c.Key, c.Value })];
        if (conditions.Length > 0)
        {
            yield return (Rows("INSERT INTO condition (burst, code, probability) VALUES", 3, conditions.Length), conditions);
        }

        yield return ("INSERT INTO beats (burst, packed) VALUES (@p0, @p1)", [id, BeatPack.Pack(burst.Beats)]);
    }

    /// <summary>Writes a mark.</summary>
    public void Add(MaintenanceMark mark, DbTransaction transaction) => Run(
        transaction,
        "INSERT INTO mark (ram, at_us, words) VALUES (@p0, @p1, @p2) ON CONFLICT DO NOTHING",
        RamOf(mark.Ram, transaction), StoreTime.Of(mark.AtUtc), mark.Words);

    /// <summary>Takes a burst out, as an outbox does once it was delivered.</summary>
    public void Remove(string ram, byte[] sourceHash, DbTransaction transaction)
    {
        if (Scalar(transaction, "SELECT t.id FROM burst t JOIN ram r ON r.id = t.ram WHERE r.name = @p0 AND t.source_hash = @p1", ram, sourceHash) is not { } id)
        {
            return;
        }

        Run(
            transaction,
            "DELETE FROM figure WHERE ram = (SELECT ram FROM burst WHERE id = @p0) AND kind IN (" + SeasonFigures.SqlList
                + ") AND start_us = (SELECT start_us FROM burst WHERE id = @p0) AND burst = @p0",
            id);
        Run(transaction, "DELETE FROM condition WHERE burst = @p0", id);
        Run(transaction, "DELETE FROM beats WHERE burst = @p0", id);
        Run(transaction, "DELETE FROM burst WHERE id = @p0", id);
    }

    /// <summary>Takes a mark out.</summary>
    public void Remove(MaintenanceMark mark, DbTransaction transaction) => Run(
        transaction,
        "DELETE FROM mark WHERE ram = (SELECT id FROM ram WHERE name = @p0) AND at_us = @p1 AND words = @p2",
        mark.Ram, StoreTime.Of(mark.AtUtc), mark.Words);

    /// <inheritdoc/>
    public void Dispose() => _commands.Dispose();

    internal long RamOf(string name, DbTransaction transaction)
    {
        const string find = "SELECT COALESCE(merged_into, id) FROM ram WHERE name = @p0";
        if (Scalar(transaction, find, name) is { } known)
        {
            return (long)known;
        }

        // Another host may put it in meanwhile; then the look-up finds that one's.
        Run(transaction, "INSERT INTO ram (name) VALUES (@p0) ON CONFLICT DO NOTHING", name);
        return (long)Scalar(transaction, find, name)!;
    }

    // The number of a name that was joined into another; null for one that stands for itself.
    private long? OtherNameOf(string name, DbTransaction transaction) =>
        Scalar(transaction, "SELECT id FROM ram WHERE name = @p0 AND merged_into IS NOT NULL", name) as long?;

    private static string Rows(string insert, int columns, int values) =>
        $"{insert} {string.Join(", ", Enumerable.Range(0, values / columns).Select(row => Row(row * columns, columns)))}";

    private static string Row(int first, int columns) =>
        "(" + string.Join(", ", Enumerable.Range(first, columns).Select(i => string.Create(CultureInfo.InvariantCulture, $"@p{i}"))) + ")";

    internal void Run(DbTransaction transaction, string sql, params object?[] values) => _commands.Of(sql, transaction, values).ExecuteNonQuery();

    internal object? Scalar(DbTransaction transaction, string sql, params object?[] values) => _commands.Of(sql, transaction, values).ExecuteScalar();
}
