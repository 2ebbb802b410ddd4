using StoreMap.Data;

namespace StoreMap.Tests;

/// <summary><c>person</c>: who may sign in, from the command line.</summary>
public class PersonTests
{
    private const string Words = "four cold words here";

    [Fact]
    public void Person_AddedChangedAndRemoved_SignsInAccordingly()
    {
        using var runner = new Runner();
        var data = runner.PathOf("data");
        Assert.Equal(0, runner.RunTyping(Words + "\n", "person", "Ada Brook", "--role", "office", "--data", data));
        Assert.DoesNotContain(Words, runner.Out + runner.Error, StringComparison.Ordinal);
        var people = new People(StoreDatabase.Open(data, TimeProvider.System), TimeProvider.System);
        var before = people.Try("ada brook", Words).Person!;
        Assert.Equal("office", before.Role);

        // A new passphrase and the default role; the old passphrase and sign-ins made with it end.
        Assert.Equal(0, runner.RunTyping("five other cold words\n", "person", "Ada Brook", "--data", data));
        Assert.Null(people.Try("Ada Brook", Words).Person);
        var after = people.Try("Ada Brook", "five other cold words").Person!;
        Assert.Equal("field", after.Role);
        Assert.NotEqual(before.Stamp, after.Stamp);

        Assert.Equal(0, runner.Run("person", "Ada Brook", "--remove", "--data", data));
        Assert.Empty(people.All());
        Assert.Equal(1, runner.Run("person", "Ada Brook", "--remove", "--data", data));
        Assert.Contains("There is no Ada Brook", runner.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Ada", "short", "at least 10 characters")]
    [InlineData("Ada", "", "at least 10 characters")]
    [InlineData(" ", Words, "1 to 64 characters")]
    [InlineData("a\tb", Words, "1 to 64 characters")]
    public void Person_NameOrPassphraseThatWillNotDo_IsRefusedAndNobodyIsAdded(string name, string typed, string words)
    {
        using var runner = new Runner();
        var data = runner.PathOf("data");
        Assert.Equal(1, runner.RunTyping(typed + "\n", "person", name, "--data", data));
        Assert.Contains(words, runner.Error, StringComparison.Ordinal);
        Assert.Empty(new People(StoreDatabase.Open(data, TimeProvider.System), TimeProvider.System).All());
    }

    [Fact]
    public void Person_OfAnUnknownRole_IsWrongUsage()
    {
        using var runner = new Runner();
        Assert.Equal(2, runner.RunTyping(Words, "person", "Ada", "--role", "manager", "--data", runner.PathOf("data")));
        Assert.False(Directory.Exists(runner.PathOf("data")));
    }
}
