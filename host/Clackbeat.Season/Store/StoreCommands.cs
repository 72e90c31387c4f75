using System.Data;
using System.Data.Common;
using System.Globalization;

namespace Clackbeat.Season.Store;

/// <summary>Statements of one connection, filled with values: kept one by one, since they stay compiled, or many in one message to a server.</summary>
/// <param name="connection">Where the statements run.</param>
internal sealed class StoreCommands(DbConnection connection) : IDisposable
{
    private readonly Dictionary<string, DbCommand> _kept = [];

    /// <summary>A statement that is kept.</summary>
    /// <param name="sql">The statement, with parameters <c>@p0</c>, <c>@p1</c> and so on.</param>
    /// <param name="transaction">Within which it runs.</param>
    /// <param name="values">Values of the parameters: long, double, text, bytes or null.</param>
    public DbCommand Of(string sql, DbTransaction transaction, object?[] values)
    {
        if (!_kept.TryGetValue(sql, out DbCommand? command))
        {
            command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are constants of the store, values go in as parameters.
            command.CommandText = sql;
#pragma warning restore CA2100
            for (int i = 0; i < values.Length; i++)
            {
                command.Parameters.Add(Named(command.CreateParameter(), i));
            }

            _kept.Add(sql, command);
        }

        command.Transaction = transaction;
        for (int i = 0; i < values.Length; i++)
        {
            Fill(command.Parameters[i], values[i]);
        }

        return command;
    }

    /// <summary>Many statements as one message.</summary>
    /// <param name="transaction">Within which they run.</param>
    /// <param name="statements">Each with the values of its parameters.</param>
    public DbBatch Batch(DbTransaction transaction, IEnumerable<(string Sql, object?[] Values)> statements)
    {
        DbBatch batch = connection.CreateBatch();
        batch.Transaction = transaction;
        foreach ((string sql, object?[] values) in statements)
        {
            DbBatchCommand command = batch.CreateBatchCommand();
#pragma warning disable CA2100 // The statements are constants of the store, values go in as parameters.
            command.CommandText = sql;
#pragma warning restore CA2100
            for (int i = 0; i < values.Length; i++)
            {
                DbParameter parameter = Named(command.CreateParameter(), i);
                Fill(parameter, values[i]);
                command.Parameters.Add(parameter);
            }

            batch.BatchCommands.Add(command);
        }

        return batch;
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (DbCommand command in _kept.Values)
        {
            command.Dispose();
        }
    }

    private static DbParameter Named(DbParameter parameter, int i)
    {
        parameter.ParameterName = string.Create(CultureInfo.InvariantCulture, $"@p{i}");
        return parameter;
    }

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
