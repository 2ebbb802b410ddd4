using Microsoft.Data.Sqlite;
using StoreMap.Data;

namespace StoreMap.Tests;

public sealed class PhotosTests : IDisposable
{
    private readonly TestFolder folder = new();

    public PhotosTests()
    {
        folder.Layouts.Save("quince", "Quince Street", "{}", 0, "test");
        folder.Journal.Append("s1", "quince", folder.Clock.Now, [], "ann");
    }

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Add_TwiceAndThenAnother_KeepsTheFirstOnce()
    {
        Assert.Equal(PhotoKept.Kept, folder.Photos.Add(PhotoOwner.Survey, "s1", "p1", [1, 2, 3], "ann"));
        Assert.Equal(PhotoKept.Kept, folder.Photos.Add(PhotoOwner.Survey, "s1", "p1", [1, 2, 3], "ben"));
        Assert.Equal(PhotoKept.Different, folder.Photos.Add(PhotoOwner.Survey, "s1", "p1", [9], "ben"));
        Assert.Equal(["p1"], folder.Photos.Of(PhotoOwner.Survey, "s1"));
        Assert.Equal([1, 2, 3], folder.Photos.Find(PhotoOwner.Survey, "s1", "p1")!);
        Assert.Null(folder.Photos.Find(PhotoOwner.Survey, "s2", "p1"));
    }

    [Fact]
    public void Add_SurveyNotHereOrFull_IsToldAndNotKept()
    {
        Assert.Equal(PhotoKept.NoOwner, folder.Photos.Add(PhotoOwner.Survey, "s9", "p1", [1], "ann"));
        using (var connection = folder.Database.Connect())
        {
            for (var i = 0; i < Photos.MostOfASurvey; i++)
                connection.Execute("INSERT INTO photos(id, survey, image, at, sender) VALUES ($id, 's1', x'01', '', '')", ("$id", $"f{i}"));
        }

        Assert.Equal(PhotoKept.TooMany, folder.Photos.Add(PhotoOwner.Survey, "s1", "p1", [1], "ann"));
        Assert.Equal(PhotoKept.Kept, folder.Photos.Add(PhotoOwner.Survey, "s1", "f0", [1], "ann"));
    }

    [Fact]
    public void Add_ToAStore_IsItsOwnAndNeverChanged()
    {
        Assert.Equal(PhotoKept.NoOwner, folder.Photos.Add(PhotoOwner.Store, "s1", "p1", [1], "ann"));
        Assert.Equal(PhotoKept.Kept, folder.Photos.Add(PhotoOwner.Store, "quince", "p1", [1, 2], "ann"));
        Assert.Equal(PhotoKept.Kept, folder.Photos.Add(PhotoOwner.Store, "quince", "p1", [1, 2], "ben"));
        Assert.Equal(PhotoKept.Different, folder.Photos.Add(PhotoOwner.Store, "quince", "p1", [9], "ben"));
        Assert.Equal([1, 2], folder.Photos.Find(PhotoOwner.Store, "quince", "p1")!);
        Assert.Equal(["p1"], folder.Photos.Of(PhotoOwner.Store, "quince"));
        Assert.Empty(folder.Photos.Of(PhotoOwner.Survey, "s1"));
        using var connection = folder.Database.Connect();
        Assert.Throws<SqliteException>(() => connection.Execute("DELETE FROM store_photos"));
        Assert.Throws<SqliteException>(() => connection.Execute("UPDATE store_photos SET image = x'00'"));
    }

    [Fact]
    public void Photos_AreNeverChangedOrDeleted()
    {
        folder.Photos.Add(PhotoOwner.Survey, "s1", "p1", [1], "ann");
        using var connection = folder.Database.Connect();
        Assert.Throws<SqliteException>(() => connection.Execute("DELETE FROM photos"));
        Assert.Throws<SqliteException>(() => connection.Execute("UPDATE photos SET image = x'00'"));
    }
}
