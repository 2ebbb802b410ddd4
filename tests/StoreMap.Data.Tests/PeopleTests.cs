using StoreMap.Data;

namespace StoreMap.Tests;

public sealed class PeopleTests : IDisposable
{
    private readonly TestFolder folder = new();

    public PeopleTests() => folder.People.Set("Ann", "field", "four cold words here");

    public void Dispose() => folder.Dispose();

    [Fact]
    public void Hash_KnownInput_EqualsThePublishedVector()
    {
        // PBKDF2-HMAC-SHA256, "passwd" / "salt", 1 round, first 32 of 64 bytes: RFC 7914, section 11.
        var hash = Passphrase.Hash("passwd", "salt"u8.ToArray(), 1).Split('$')[3];
        Assert.Equal("55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc", Convert.ToHexStringLower(Convert.FromBase64String(hash)));
    }

    [Fact]
    public void Try_RightAndWrong_SignsInOrNot()
    {
        Assert.Equal("field", folder.People.Try("ann", "four cold words here").Person!.Role);
        Assert.Null(folder.People.Try("ann", "four cold words her").Person);
        Assert.Null(folder.People.Try("nobody", "four cold words here").Person);
    }

    [Fact]
    public void Set_Twice_SaltsAnewAndEndsOldSignIns()
    {
        var before = folder.People.Find("ann")!.Stamp;
        folder.People.Set("ann", "office", "four cold words here");
        Assert.NotEqual(before, folder.People.Find("ann")!.Stamp);
        Assert.NotEqual(Passphrase.Hash("same"), Passphrase.Hash("same"));
    }

    [Fact]
    public void Try_FiveTimesWrong_LocksEvenTheRightOneAndOpensAgain()
    {
        for (var i = 0; i < 5; i++) folder.People.Try("ann", "wrong");
        var locked = folder.People.Try("ann", "four cold words here");
        Assert.Null(locked.Person);
        Assert.Equal(folder.Clock.Now.AddMinutes(5), locked.LockedTill);
        folder.Clock.Now = folder.Clock.Now.AddMinutes(5);
        Assert.NotNull(folder.People.Try("ann", "four cold words here").Person);
    }

    [Fact]
    public void Try_WrongAfterTheLock_LocksTwiceAsLong()
    {
        for (var i = 0; i < 5; i++) folder.People.Try("ann", "wrong");
        folder.Clock.Now = folder.Clock.Now.AddMinutes(6);
        Assert.Equal(folder.Clock.Now.AddMinutes(10), folder.People.Try("ann", "wrong").LockedTill);
    }

    [Fact]
    public void Remove_AKnownPerson_EndsThem()
    {
        Assert.True(folder.People.Remove("ANN"));
        Assert.False(folder.People.Remove("ann"));
        Assert.Null(folder.People.Find("ann"));
    }

    [Fact]
    public void Set_ShortPassphrase_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => folder.People.Set("ben", "field", "short"));
}
