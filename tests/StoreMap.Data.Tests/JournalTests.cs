using CsCheck;
using Microsoft.Data.Sqlite;
using StoreMap.Data;

namespace StoreMap.Tests;

public sealed class JournalTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 8, 4, 4, 0, 0, TimeSpan.FromHours(-5));
    private readonly TestFolder folder = new();

    public JournalTests() => folder.Layouts.Save("quince", "Quince Street", "{}", 0, "test");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Append_Twice_KeepsOne()
    {
        NewEvent[] batch = [new("e1", "{\"ppm\":3}"), new("e2", "{\"ppm\":4}")];
        folder.Journal.Append("s1", "quince", Start, batch, "ann");
        var again = folder.Journal.Append("s1", "quince", Start, batch, "ben");
        Assert.Equal(["e1", "e2"], again!.Kept);
        Assert.Empty(again.Different);
        Assert.Equal(["e1", "e2"], folder.Journal.Events("s1").Select(e => e.Id));
    }

    [Fact]
    public void Append_KnownIdWithOtherContent_KeepsTheFirstAndSaysSo()
    {
        folder.Journal.Append("s1", "quince", Start, [new("e1", "{\"ppm\":3}")], "ann");
        var second = folder.Journal.Append("s1", "quince", Start, [new("e1", "{\"ppm\":30}"), new("e2", "{}")], "ben");
        Assert.Equal(["e1"], second!.Different);
        Assert.Equal(["e2"], second.Kept);
        Assert.Equal("{\"ppm\":3}", folder.Journal.Events("s1")[0].Document);
    }

    [Fact]
    public void Append_SurveyOfAnotherStore_IsRefusedWhole()
    {
        folder.Layouts.Save("tern", "Tern", "{}", 0, "test");
        folder.Journal.Append("s1", "quince", Start, [], "ann");
        Assert.Null(folder.Journal.Append("s1", "tern", Start, [new("e1", "{}")], "ann"));
        Assert.Empty(folder.Journal.Events("s1"));
    }

    [Fact]
    public void Append_UnknownStore_IsRefusedByTheForeignKey() =>
        Assert.Throws<SqliteException>(() => folder.Journal.Append("s1", "nowhere", Start, [], "ann"));

    [Fact]
    public void Append_AnyBatchesInAnyOrderWithRepeats_GivesEveryEventOnce()
    {
        Gen.Int[1, 40].Array[1, 60].Array[1, 8].Sample(
            batches =>
            {
                var survey = Guid.NewGuid().ToString();
                foreach (var batch in batches)
                    folder.Journal.Append(survey, "quince", Start, [.. batch.Select(n => new NewEvent($"{survey}-{n}", $"{{\"n\":{n}}}"))], "ann");
                var ids = folder.Journal.Events(survey).Select(e => e.Id).ToArray();
                Assert.Equal(batches.SelectMany(b => b).Distinct().Select(n => $"{survey}-{n}").Order(StringComparer.Ordinal), ids.Order(StringComparer.Ordinal));
            },
            iter: 30, threads: 1);
    }

    [Fact]
    public void Events_AfterAPlace_GivesTheRestInOrderOfReceipt()
    {
        folder.Journal.Append("s1", "quince", Start, [new("b", "{}")], "ann");
        var known = folder.Journal.Events("s1")[^1].Received;
        folder.Journal.Append("s1", "quince", Start, [new("c", "{}"), new("a", "{}")], "ann");
        Assert.Equal(["c", "a"], folder.Journal.Events("s1", known).Select(e => e.Id));
        Assert.Equal(["c"], folder.Journal.Events("s1", known, most: 1).Select(e => e.Id));
    }

    [Theory]
    [InlineData("UPDATE events SET document = 'x'")]
    [InlineData("DELETE FROM events")]
    public void Events_ChangedBehindTheJournal_AreRefusedByTheDatabase(string sql)
    {
        folder.Journal.Append("s1", "quince", Start, [new("e1", "{}")], "ann");
        using var connection = folder.Database.Connect();
        Assert.Throws<SqliteException>(() => connection.Execute(sql));
        Assert.Single(folder.Journal.Events("s1"));
    }

    [Fact]
    public void Append_FromManyThreads_LosesNothing()
    {
        Parallel.For(0, 8, t =>
        {
            for (var i = 0; i < 20; i++) folder.Journal.Append("s1", "quince", Start, [new($"{t}-{i}", "{}")], "t" + t);
        });
        Assert.Equal(160, folder.Journal.Survey("s1")!.Events);
    }
}
