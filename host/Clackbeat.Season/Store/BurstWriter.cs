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

    /// <summary>Writes a burst; false when it was there.</summary>
    public bool Add(SeasonBurst burst, DbTransaction transaction)
    {
        long ram = RamOf(burst.Ram, transaction);
        long startUs = StoreTime.Of(burst.StartUtc);
        object? id = Scalar(
            transaction,
            """
            INSERT INTO burst (ram, source_hash, source, start_us, duration_us, state, beat_count, completeness)
            VALUES (@p0, @p1, @p2, @p3, @p4, @p5, @p6, @p7) ON CONFLICT (ram, source_hash) DO NOTHING RETURNING id
            """,
            ram, burst.SourceHash, burst.Source, startUs, (long)Math.Round(burst.DurationS * 1e6),
            StoredState.Word(burst.State), (long)burst.Beats.Count, burst.Completeness);
        if (id is null)
        {
            return false;
        }

        Rows(
            transaction, "INSERT INTO figure (ram, kind, start_us, burst, value, u) VALUES", 6,
            [.. burst.Figures.Where(f => double.IsFinite(f.Value.Value)).SelectMany(f => new object?[] { ram, f.Key.Code(), startUs, id, f.Value.Value, f.Value.U })]);
        Rows(
            transaction, "INSERT INTO condition (burst, code, probability) VALUES", 3,
            [.. burst.Conditions.SelectMany(c => new object?[] { id, c.Key, c.Value })]);
        Run(transaction, "INSERT INTO beats (burst, packed) VALUES (@p0, @p1)", id, BeatPack.Pack(burst.Beats));
        return true;
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

    private void Rows(DbTransaction transaction, string insert, int columns, object?[] values)
    {
        if (values.Length > 0)
        {
            Run(transaction, $"{insert} {string.Join(", ", Enumerable.Range(0, values.Length / columns).Select(row => Row(row * columns, columns)))}", values);
        }
    }

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
                parameter.ParameterName = string.Create(CultureInfo.InvariantCulture, $"@p{i}");
                command.Parameters.Add(parameter);
            }

            _commands.Add(sql, command);
        }

        command.Transaction = transaction;
        for (int i = 0; i < values.Length; i++)
        {
            DbParameter parameter = command.Parameters[i];
            parameter.Value = values[i] ?? DBNull.Value;
            parameter.DbType = values[i] switch
            {
                null or double => DbType.Double,
                long => DbType.Int64,
                byte[] => DbType.Binary,
                _ => DbType.String,
            };
        }

        return command;
    }
}
