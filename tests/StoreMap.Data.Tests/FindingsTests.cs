using StoreMap.Data;

namespace StoreMap.Tests;

public sealed class FindingsTests : IDisposable
{
    private readonly TestFolder folder = new();

    public FindingsTests() => folder.Layouts.Save("quince", "Quince Street", "one", 0, "ann");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Append_TwiceOrChanged_StaysAsFirstSaid()
    {
        Assert.Equal(["n1"], Append("open", "ann").Kept);
        Assert.Equal(["n1"], Append("open", "ben").Kept);
        Assert.Equal(["n1"], Append("repaired", "ben").Different);
        Assert.Equal(("open", "ann", folder.Clock.Now), folder.Findings.Of("quince").Select(f => (f.Document, f.Sender, f.At)).Single());
    }

    [Fact]
    public void Of_AfterAPlace_GivesWhatCameSince()
    {
        folder.Findings.Append("quince", [new("n1", "F1", "1"), new("n2", "F1", "2"), new("n3", "", "3")], "ann");
        var first = folder.Findings.Of("quince", 0, 1).Single();
        Assert.Equal(["n2", "n3"], folder.Findings.Of("quince", first.Received).Select(f => f.Id));
    }

    private AppendResult Append(string document, string who) => folder.Findings.Append("quince", [new NewFindingEntry("n1", "F1", document)], who);
}
