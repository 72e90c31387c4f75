using System.Data.Common;

namespace Clackbeat.Season.Store;

/// <summary>Rows of a query, all at once.</summary>
internal static class SqlRows
{
    /// <summary>Runs a query of this program's own.</summary>
    /// <param name="connection">An open store.</param>
    /// <param name="sql">The query.</param>
    /// <param name="take">Reads the row on which the reader stands.</param>
    /// <param name="parameters">Values that the query names.</param>
    public static List<T> Of<T>(DbConnection connection, string sql, Func<DbDataReader, T> take, params (string Name, object Value)[] parameters)
    {
        using DbCommand command = connection.CreateCommand();
#pragma warning disable CA2100 // The queries stand in this program, values go in as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object value) in parameters)
        {
            DbParameter parameter = command.CreateParameter();
            (parameter.ParameterName, parameter.Value) = (name, value);
            command.Parameters.Add(parameter);
        }

        using DbDataReader reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read())
        {
            rows.Add(take(reader));
        }

        return rows;
    }
}
