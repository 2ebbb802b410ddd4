using Microsoft.Data.Sqlite;

namespace StoreMap.Data;

/// <summary>Checks a backup and puts it back in place of the data folder's database.</summary>
public static class Backups
{
    /// <summary>Restores a backup. What was there is kept beside it under <c>backups</c>, never thrown away.</summary>
    /// <param name="backup">A file made by <see cref="StoreDatabase.BackUp"/>.</param>
    /// <param name="folder">The data folder; no program may be using it.</param>
    /// <param name="clock">Names the copy of what was there.</param>
    /// <returns>The copy of what was there; null when there was nothing.</returns>
    /// <exception cref="InvalidDataException">The backup is damaged, or no backup of StoreMap.</exception>
    public static string? Restore(string backup, string folder, TimeProvider clock)
    {
        Check(backup);
        Directory.CreateDirectory(folder);
        var file = Path.Combine(folder, StoreDatabase.FileName);
        var kept = KeepPresent(folder, file, clock);
        var beside = file + ".part";
        File.Copy(backup, beside, overwrite: true);
        foreach (var side in new[] { "-wal", "-shm" }) File.Delete(file + side);
        File.Move(beside, file, overwrite: true);
        StoreDatabase.Open(folder, clock);
        return kept;
    }

    private static string? KeepPresent(string folder, string file, TimeProvider clock)
    {
        if (!File.Exists(file)) return null;
        var present = StoreDatabase.Open(folder, clock);
        var to = Path.Combine(folder, "backups", $"before-restore-{clock.GetUtcNow():yyyyMMdd'T'HHmmssfff}.db");
        Directory.CreateDirectory(Path.GetDirectoryName(to)!);
        present.BackUp(to);
        SqliteConnection.ClearAllPools();
        return to;
    }

    private static void Check(string backup)
    {
        if (!File.Exists(backup)) throw new InvalidDataException($"There is no file {backup}.");
        try
        {
            using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = backup, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ToString());
            connection.Open();
            var verdict = connection.Read("PRAGMA integrity_check", r => r.GetString(0))[0];
            if (verdict != "ok") throw new InvalidDataException($"{backup} is damaged: {verdict}");
            if (connection.Read("SELECT 1 FROM sqlite_master WHERE name = 'events'", r => r.GetInt32(0)).Count == 0) throw new InvalidDataException($"{backup} is no backup of StoreMap.");
        }
        catch (SqliteException)
        {
            throw new InvalidDataException($"{backup} is no backup of StoreMap, or it is damaged.");
        }
    }
}
