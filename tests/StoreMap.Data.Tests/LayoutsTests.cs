namespace StoreMap.Tests;

public sealed class LayoutsTests : IDisposable
{
    private readonly TestFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Save_FromTheLatest_MakesTheNextVersionAndKeepsTheOld()
    {
        Assert.Equal(1, folder.Layouts.Save("quince", "Quince Street", "one", 0, "ann")!.Version);
        Assert.Equal(2, folder.Layouts.Save("quince", "Quince Street Grocery", "two", 1, "ben")!.Version);
        Assert.Equal("two", folder.Layouts.Latest("quince")!.Document);
        Assert.Equal("one", folder.Layouts.At("quince", 1)!.Document);
        Assert.Equal([new Data.StoreRow("quince", "Quince Street Grocery", 2)], folder.Layouts.Stores());
    }

    [Fact]
    public void Save_FromAnOlderVersion_ChangesNothing()
    {
        folder.Layouts.Save("quince", "Quince Street", "one", 0, "ann");
        folder.Layouts.Save("quince", "Quince Street", "two", 1, "ann");
        Assert.Null(folder.Layouts.Save("quince", "Mine", "three", 1, "ben"));
        Assert.Equal(("two", "Quince Street"), (folder.Layouts.Latest("quince")!.Document, folder.Layouts.Stores()[0].Name));
    }

    [Fact]
    public void Save_FromAVersionThatIsNotThere_MakesNoStore()
    {
        Assert.Null(folder.Layouts.Save("quince", "Quince Street", "one", 3, "ann"));
        Assert.Empty(folder.Layouts.Stores());
    }

    [Fact]
    public void Save_ByTwoAtOnce_OneWins()
    {
        folder.Layouts.Save("quince", "Quince Street", "one", 0, "ann");
        var won = 0;
        Parallel.For(0, 8, i =>
        {
            if (folder.Layouts.Save("quince", "Quince Street", $"by {i}", 1, "t") is not null) Interlocked.Increment(ref won);
        });
        Assert.Equal(1, won);
        Assert.Equal(2, folder.Layouts.Latest("quince")!.Version);
    }
}
