using Microsoft.Data.Sqlite;

namespace StoreMap.Data;

/// <summary>The data folder: one SQLite database with write-ahead logging, and the backups beside it.</summary>
/// <remarks>What a call has returned from is on the disk: every write waits for it (synchronous FULL). Connections are short-lived and
/// pooled, so any number of threads may use one instance.</remarks>
public sealed class StoreDatabase
{
    /// <summary>Name of the database file in the data folder.</summary>
    public const string FileName = "storemap.db";

    private readonly string connectionString;

    private StoreDatabase(string folder)
    {
        Folder = folder;
        File = Path.Combine(folder, FileName);
        connectionString = new SqliteConnectionStringBuilder { DataSource = File, ForeignKeys = true, DefaultTimeout = 30 }.ToString();
    }

    /// <summary>Name of the newest step that this version brings a database forward to, such as <c>0002-people</c>.</summary>
    public static string NewestMigration => Path.GetFileNameWithoutExtension(Migrator.Steps().Max(StringComparer.Ordinal)!);

    /// <summary>The data folder.</summary>
    public string Folder { get; }

    /// <summary>The database file.</summary>
    public string File { get; }

    /// <summary>Opens the data folder, made when missing. An older database is backed up, then migrated forward.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="clock">Names the automatic backup.</param>
    /// <returns>The database, ready for use.</returns>
    /// <exception cref="NewerDatabaseException">It was written by a later version.</exception>
    public static StoreDatabase Open(string folder, TimeProvider clock)
    {
        Directory.CreateDirectory(folder);
        var database = new StoreDatabase(Path.GetFullPath(folder));
        using (var connection = database.Connect())
        {
            // Kept in the file from then on.
            connection.Execute("PRAGMA journal_mode = WAL");
        }

        new Migrator(database).Run(clock.GetUtcNow());
        return database;
    }

    /// <summary>Copies the whole content, also while others write.</summary>
    /// <param name="file">The copy; must not exist.</param>
    public void BackUp(string file)
    {
        if (System.IO.File.Exists(file)) throw new IOException($"{file} exists already; a backup never overwrites.");
        using var connection = Connect();
        connection.Execute("VACUUM INTO $file", ("$file", file));
    }

    /// <summary>An open connection with foreign keys on and every commit waiting for the disk.</summary>
    internal SqliteConnection Connect()
    {
        var connection = new SqliteConnection(connectionString);
        connection.Open();
        connection.Execute("PRAGMA synchronous = FULL");
        return connection;
    }
}
