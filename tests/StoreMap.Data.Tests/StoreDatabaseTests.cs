using StoreMap.Data;

namespace StoreMap.Tests;

public sealed class StoreDatabaseTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 8, 4, 4, 0, 0, TimeSpan.Zero);
    private readonly TestFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Open_ANewFolder_HasWriteAheadLogAndForeignKeys()
    {
        using var connection = folder.Database.Connect();
        Assert.Equal("wal", connection.Read("PRAGMA journal_mode", r => r.GetString(0))[0]);
        Assert.Equal(1, connection.Read("PRAGMA foreign_keys", r => r.GetInt32(0))[0]);
        Assert.Equal(2, connection.Read("PRAGMA synchronous", r => r.GetInt32(0))[0]);
    }

    [Fact]
    public void Open_Again_KeepsAllAndMakesNoBackup()
    {
        Fill("s1");
        var again = new Journal(StoreDatabase.Open(folder.Data, folder.Clock), folder.Clock);
        Assert.Equal(2, again.Events("s1").Count);
        Assert.False(Directory.Exists(Path.Combine(folder.Data, "backups")));
    }

    [Fact]
    public void Open_OlderDatabase_BacksUpFirstThenMigratesAndKeepsContent()
    {
        Fill("s1");
        // As the first step alone left it.
        using (var connection = folder.Database.Connect())
        {
            connection.Execute("DROP TABLE people");
            connection.Execute("DROP TABLE photos");
            connection.Execute("DROP TABLE store_photos");
            connection.Execute("DROP TABLE devices");
            connection.Execute("DELETE FROM SchemaVersions WHERE ScriptName <> '0001-stores.sql'");
        }

        var database = StoreDatabase.Open(folder.Data, folder.Clock);
        new People(database, folder.Clock).Set("ann", "field", "four cold words here");
        Assert.Equal(2, new Journal(database, folder.Clock).Events("s1").Count);
        var backup = Assert.Single(Directory.GetFiles(Path.Combine(folder.Data, "backups")));
        Assert.Contains("before-update-20260804T090000000", backup, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_NewerDatabase_IsRefusedByName()
    {
        using (var connection = folder.Database.Connect())
            connection.Execute("INSERT INTO SchemaVersions(ScriptName, Applied) VALUES ('9999-later.sql', '2030-01-01')");
        var refused = Assert.Throws<NewerDatabaseException>(() => StoreDatabase.Open(folder.Data, folder.Clock));
        Assert.Contains("9999-later.sql", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task BackUp_WhileOthersWrite_HoldsACompletePastAndRestores()
    {
        Fill("s1");
        using var stop = new CancellationTokenSource();
        var writing = Task.Run(() =>
        {
            for (var i = 0; i < 500 && !stop.IsCancellationRequested; i++)
                folder.Journal.Append("s2", "quince", Start, [new($"w{i}a", "{}"), new($"w{i}b", "{}")], "ann");
        }, TestContext.Current.CancellationToken);
        var file = Path.Combine(folder.Root, "copy.db");
        while (folder.Journal.Survey("s2") is null) await Task.Delay(5, TestContext.Current.CancellationToken);
        folder.Database.BackUp(file);
        await stop.CancelAsync();
        await writing;

        var other = Path.Combine(folder.Root, "other");
        Assert.Null(Backups.Restore(file, other, folder.Clock));
        var restored = new Journal(StoreDatabase.Open(other, folder.Clock), folder.Clock);
        Assert.Equal(folder.Journal.Events("s1"), restored.Events("s1"));
        var pairs = restored.Events("s2").Count;
        Assert.True(pairs > 0 && pairs % 2 == 0, $"A batch is whole or not there: {pairs}");
    }

    [Fact]
    public void Restore_OverAFolderInUseBefore_KeepsWhatWasThere()
    {
        Fill("s1");
        var file = Path.Combine(folder.Root, "copy.db");
        folder.Database.BackUp(file);
        Fill("s2");
        var kept = Backups.Restore(file, folder.Data, folder.Clock);
        var now = new Journal(StoreDatabase.Open(folder.Data, folder.Clock), folder.Clock);
        Assert.NotNull(now.Survey("s1"));
        Assert.Null(now.Survey("s2"));
        Backups.Restore(kept!, folder.Data, new TestClock { Now = folder.Clock.Now.AddMinutes(1) });
        Assert.NotNull(new Journal(StoreDatabase.Open(folder.Data, folder.Clock), folder.Clock).Survey("s2"));
    }

    [Fact]
    public void Restore_ADamagedFile_ChangesNothing()
    {
        Fill("s1");
        var file = Path.Combine(folder.Root, "bad.db");
        File.WriteAllBytes(file, [.. "SQLite format 3\0"u8, .. new byte[5000]]);
        Assert.Throws<InvalidDataException>(() => Backups.Restore(file, folder.Data, folder.Clock));
        Assert.NotNull(folder.Journal.Survey("s1"));
    }

    private void Fill(string survey)
    {
        if (folder.Layouts.Latest("quince") is null) folder.Layouts.Save("quince", "Quince Street", "{}", 0, "test");
        folder.Journal.Append(survey, "quince", Start, [new(survey + "1", "{\"ppm\":3}"), new(survey + "2", "{\"ppm\":4}")], "ann");
    }
}
