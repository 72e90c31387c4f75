using Microsoft.Data.Sqlite;

namespace Clackbeat.Season.Store;

/// <summary>Writes bursts and marks within a transaction of its caller.</summary>
internal sealed class BurstWriter : IDisposable
{
    private readonly SqliteCommand _ram;
    private readonly SqliteCommand _ramId;
    private readonly SqliteCommand _burst;
    private readonly SqliteCommand _figure;
    private readonly SqliteCommand _condition;
    private readonly SqliteCommand _beats;
    private readonly SqliteCommand _mark;

    public BurstWriter(SqliteConnection connection)
    {
        _ram = Prepare(connection, "INSERT INTO ram (name) VALUES ($name) ON CONFLICT DO NOTHING", "$name");
        _ramId = Prepare(connection, "SELECT id FROM ram WHERE name = $name", "$name");
        _burst = Prepare(
            connection,
            """
            INSERT INTO burst (ram, source_hash, source, start_us, duration_us, state, beat_count, completeness)
            VALUES ($ram, $hash, $source, $start, $duration, $state, $count, $completeness)
            ON CONFLICT DO NOTHING RETURNING id
            """,
            "$ram", "$hash", "$source", "$start", "$duration", "$state", "$count", "$completeness");
        _figure = Prepare(
            connection,
            "INSERT INTO figure (ram, kind, start_us, burst, value, u) VALUES ($ram, $kind, $start, $burst, $value, $u)",
            "$ram", "$kind", "$start", "$burst", "$value", "$u");
        _condition = Prepare(
            connection, "INSERT INTO condition (burst, code, probability) VALUES ($burst, $code, $probability)", "$burst", "$code", "$probability");
        _beats = Prepare(connection, "INSERT INTO beats (burst, packed) VALUES ($burst, $packed)", "$burst", "$packed");
        _mark = Prepare(
            connection, "INSERT INTO mark (ram, at_us, words) VALUES ($ram, $at, $words) ON CONFLICT DO NOTHING", "$ram", "$at", "$words");
    }

    /// <summary>Writes a burst; false when it was there.</summary>
    public bool Add(SeasonBurst burst, SqliteTransaction transaction)
    {
        long ram = RamOf(burst.Ram, transaction);
        long startUs = StoreTime.Of(burst.StartUtc);
        object? id = Scalar(
            _burst, transaction, ram, burst.SourceHash, burst.Source, startUs, (long)Math.Round(burst.DurationS * 1e6),
            StoredState.Word(burst.State), burst.Beats.Count, burst.Completeness);
        if (id is null)
        {
            return false;
        }

        foreach ((SeasonFigure figure, SeasonValue value) in burst.Figures.Where(f => double.IsFinite(f.Value.Value)))
        {
            Run(_figure, transaction, ram, figure.Code(), startUs, id, value.Value, value.U);
        }

        foreach ((string code, double probability) in burst.Conditions)
        {
            Run(_condition, transaction, id, code, probability);
        }

        Run(_beats, transaction, id, BeatPack.Pack(burst.Beats));
        return true;
    }

    /// <summary>Writes a mark.</summary>
    public void Add(MaintenanceMark mark, SqliteTransaction transaction) =>
        Run(_mark, transaction, RamOf(mark.Ram, transaction), StoreTime.Of(mark.AtUtc), mark.Words);

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (SqliteCommand command in new[] { _ram, _ramId, _burst, _figure, _condition, _beats, _mark })
        {
            command.Dispose();
        }
    }

    private long RamOf(string name, SqliteTransaction transaction)
    {
        Run(_ram, transaction, name);
        return (long)Scalar(_ramId, transaction, name)!;
    }

    private static SqliteCommand Prepare(SqliteConnection connection, string sql, params string[] parameters)
    {
        SqliteCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements stand above, values go in as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach (string name in parameters)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = name });
        }

        return command;
    }

    private static void Run(SqliteCommand command, SqliteTransaction transaction, params object?[] values)
    {
        Fill(command, transaction, values);
        command.ExecuteNonQuery();
    }

    private static object? Scalar(SqliteCommand command, SqliteTransaction transaction, params object?[] values)
    {
        Fill(command, transaction, values);
        return command.ExecuteScalar();
    }

    private static void Fill(SqliteCommand command, SqliteTransaction transaction, object?[] values)
    {
        command.Transaction = transaction;
        for (int i = 0; i < values.Length; i++)
        {
            command.Parameters[i].Value = values[i] ?? DBNull.Value;
        }
    }
}
