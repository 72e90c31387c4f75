using System.Data;
using System.Data.Common;
using System.Globalization;

namespace Clackbeat.Season.Store;

/// <summary>
/// Writes bursts and marks within a transaction of its caller, in SQL that every store understands, a few statements a burst so
/// that a far server is asked a few times only.
/// </summary>
internal sealed class BurstWriter(DbConnection connection) : IDisposable
{
    private readonly Dictionary<string, DbCommand> _commands = [];

    private const string InsertBurst =
        """
        INSERT INTO burst (ram, source_hash, source, start_us, duration_us, state, beat_count, completeness)
        VALUES (@p0, @p1, @p2, @p3, @p4, @p5, @p6, @p7) ON CONFLICT (ram, source_hash) DO NOTHING RETURNING id
        """;

    // Bursts of one message to a server: some hundred kilobytes.
    private const int AMessage = 100;

    /// <summary>Writes bursts; those that are there stay as they are.</summary>
    /// <returns>How many were new.</returns>
    public int Add(IEnumerable<SeasonBurst> bursts, DbTransaction transaction) => connection.CanCreateBatch
        ? bursts.Chunk(AMessage).Sum(chunk => Send(chunk, transaction))
        : bursts.Count(burst => Add(burst, transaction));

    private bool Add(SeasonBurst burst, DbTransaction transaction)
    {
        long ram = RamOf(burst.Ram, transaction);
        if (Scalar(transaction, InsertBurst, Values(burst, ram)) is not long id)
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
        Dictionary<string, long> rams = bursts.Select(b => b.Ram).Distinct().ToDictionary(name => name, name => RamOf(name, transaction));
        var fresh = new List<(SeasonBurst Burst, long Id)>();
        using (DbBatch first = Message(transaction, bursts.Select(b => (InsertBurst, Values(b, rams[b.Ram])))))
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
            using DbBatch second = Message(transaction, fresh.SelectMany(f => Rest(f.Burst, rams[f.Burst.Ram], f.Id)));
            second.ExecuteNonQuery();
        }

        return fresh.Count;
    }

    private DbBatch Message(DbTransaction transaction, IEnumerable<(string Sql, object?[] Values)> statements)
    {
        DbBatch batch = connection.CreateBatch();
        batch.Transaction = transaction;
        foreach ((string sql, object?[] values) in statements)
        {
            DbBatchCommand command = batch.CreateBatchCommand();
#pragma warning disable CA2100 // The statements stand in this class, values go in as parameters.
            command.CommandText = sql;
#pragma warning restore CA2100
            for (int i = 0; i < values.Length; i++)
            {
                DbParameter parameter = command.CreateParameter();
                Name(parameter, i);
                Fill(parameter, values[i]);
                command.Parameters.Add(parameter);
            }

            batch.BatchCommands.Add(command);
        }

        return batch;
    }

    private static object?[] Values(SeasonBurst burst, long ram) =>
    [
        ram, burst.SourceHash, burst.Source, StoreTime.Of(burst.StartUtc), (long)Math.Round(burst.DurationS * 1e6),
        StoredState.Word(burst.State), (long)burst.Beats.Count, burst.Completeness,
    ];

    // What hangs on a burst's number.
    private static IEnumerable<(string Sql, object?[] Values)> Rest(SeasonBurst burst, long ram, long id)
    {
        long startUs = StoreTime.Of(burst.StartUtc);
        object?[] figures = [.. burst.Figures.Where(f => double.IsFinite(f.Value.Value)).SelectMany(f => new object?[] { ram, f.Key.Code(), startUs, id, f.Value.Value, f.Value.U })];
        if (figures.Length > 0)
        {
            yield return (Rows("INSERT INTO figure (ram, kind, start_us, burst, value, u) VALUES", 6, figures.Length), figures);
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
    public void Dispose()
    {
        foreach (DbCommand command in _commands.Values)
        {
            command.Dispose();
        }
    }

    private long RamOf(string name, DbTransaction transaction)
    {
        const string find = "SELECT id FROM ram WHERE name = @p0";
        if (Scalar(transaction, find, name) is { } known)
        {
            return (long)known;
        }

        // Another host may put it in meanwhile; then the look-up finds that one's.
        Run(transaction, "INSERT INTO ram (name) VALUES (@p0) ON CONFLICT DO NOTHING", name);
        return (long)Scalar(transaction, find, name)!;
    }

    private static string Rows(string insert, int columns, int values) =>
        $"{insert} {string.Join(", ", Enumerable.Range(0, values / columns).Select(row => Row(row * columns, columns)))}";

    private static string Row(int first, int columns) =>
        "(" + string.Join(", ", Enumerable.Range(first, columns).Select(i => string.Create(CultureInfo.InvariantCulture, $"@p{i}"))) + ")";

    private void Run(DbTransaction transaction, string sql, params object?[] values) => Filled(sql, transaction, values).ExecuteNonQuery();

    private object? Scalar(DbTransaction transaction, string sql, params object?[] values) => Filled(sql, transaction, values).ExecuteScalar();

    // Commands are kept, since their statements stay compiled.
    private DbCommand Filled(string sql, DbTransaction transaction, object?[] values)
    {
        if (!_commands.TryGetValue(sql, out DbCommand? command))
        {
            command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements stand above, values go in as parameters.
            command.CommandText = sql;
#pragma warning restore CA2100
            for (int i = 0; i < values.Length; i++)
            {
                DbParameter parameter = command.CreateParameter();
                Name(parameter, i);
                command.Parameters.Add(parameter);
            }

            _commands.Add(sql, command);
        }

        command.Transaction = transaction;
        for (int i = 0; i < values.Length; i++)
        {
            Fill(command.Parameters[i], values[i]);
        }

        return command;
    }

    private static void Name(DbParameter parameter, int i) => parameter.ParameterName = string.Create(CultureInfo.InvariantCulture, $"@p{i}");

    private static void Fill(DbParameter parameter, object? value)
    {
        parameter.Value = value ?? DBNull.Value;
        parameter.DbType = value switch
        {
            null or double => DbType.Double,
            long => DbType.Int64,
            byte[] => DbType.Binary,
            _ => DbType.String,
        };
    }
}
