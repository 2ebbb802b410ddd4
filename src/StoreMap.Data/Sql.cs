using Microsoft.Data.Sqlite;

namespace StoreMap.Data;

/// <summary>Short forms of what every table needs.</summary>
internal static class Sql
{
    public static int Execute(this SqliteConnection connection, string sql, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        using var command = Command(connection, sql, values);
        return command.ExecuteNonQuery();
    }

    public static List<T> Read<T>(this SqliteConnection connection, string sql, Func<SqliteDataReader, T> row, params ReadOnlySpan<(string Name, object? Value)> values)
    {
        using var command = Command(connection, sql, values);
        using var reader = command.ExecuteReader();
        var rows = new List<T>();
        while (reader.Read()) rows.Add(row(reader));
        return rows;
    }

    private static SqliteCommand Command(SqliteConnection connection, string sql, ReadOnlySpan<(string Name, object? Value)> values)
    {
        var command = connection.CreateCommand();
#pragma warning disable CA2100 // Every text passed in is a constant of this project; values go in as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach (var (name, value) in values) command.Parameters.AddWithValue(name, value ?? DBNull.Value);
        return command;
    }
}
