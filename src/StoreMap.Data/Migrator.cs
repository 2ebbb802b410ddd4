using System.Globalization;
using System.Reflection;
using DbUp;

namespace StoreMap.Data;

/// <summary>Brings a database forward, step by step; an automatic backup comes first. There is no way back but the backup.</summary>
internal sealed class Migrator(StoreDatabase database)
{
    /// <summary>Runs the steps that the database has not had yet, all in one transaction.</summary>
    public void Run(DateTimeOffset now)
    {
        var done = Done();
        var known = Steps();
        if (done.FirstOrDefault(d => !known.Contains(d)) is { } unknown) throw new NewerDatabaseException(database.File, unknown);
        if (done.Count == known.Count) return;
        if (done.Count > 0) BackUpBefore(now);
        var result = DeployChanges.To.SqliteDatabase($"Data Source={database.File}")
            .WithScriptsEmbeddedInAssembly(Assembly.GetExecutingAssembly(), name => name.EndsWith(".sql", StringComparison.Ordinal))
            .WithTransaction().LogToNowhere().Build().PerformUpgrade();
        if (!result.Successful) throw new InvalidOperationException($"The database could not be brought up to date at {result.ErrorScript?.Name}; nothing was changed.", result.Error);
    }

    private void BackUpBefore(DateTimeOffset now)
    {
        var folder = Path.Combine(database.Folder, "backups");
        Directory.CreateDirectory(folder);
        database.BackUp(Path.Combine(folder, now.ToString("'before-update-'yyyyMMdd'T'HHmmssfff'.db'", CultureInfo.InvariantCulture)));
    }

    /// <summary>All steps that this version knows.</summary>
    public static HashSet<string> Steps() =>
        [.. Assembly.GetExecutingAssembly().GetManifestResourceNames().Where(n => n.EndsWith(".sql", StringComparison.Ordinal))];

    private List<string> Done()
    {
        using var connection = database.Connect();
        var has = connection.Read("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'SchemaVersions'", r => r.GetInt32(0)).Count > 0;
        return has ? connection.Read("SELECT ScriptName FROM SchemaVersions ORDER BY SchemaVersionID", r => r.GetString(0)) : [];
    }
}
