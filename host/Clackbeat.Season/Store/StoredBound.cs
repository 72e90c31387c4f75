namespace Clackbeat.Season.Store;

/// <summary>How a bound is kept.</summary>
internal static class StoredBound
{
    /// <summary>The stored word of an upper bound.</summary>
    public const string Upper = "upper";

    /// <summary>The word for it; empty for a plain figure.</summary>
    public static string Word(bool isUpperBound) => isUpperBound ? Upper : "";

    /// <summary>Whether a stored word says so; a figure of an earlier program has none.</summary>
    public static bool IsUpper(System.Data.Common.DbDataReader row, int column) => !row.IsDBNull(column) && row.GetString(column) == Upper;
}
