using StoreMap.History;

namespace StoreMap.Tests.History;

/// <summary>Words of the service record; the statuses follow 40 CFR 82.157: repair, initial verification, follow-up verification.</summary>
public class ServiceFindingTests
{
    private static readonly VerificationTest Initial = new(TestShop.Day(6, 12), "initial", "bubble", true);
    private static readonly VerificationTest FollowUp = new(TestShop.Day(6, 20), "follow-up", "electronic", true);

    [Fact]
    public void InWords_EachStatus_SaysWhatTheRecordSaysAndNoMore()
    {
        Assert.Equal("open since 2026-05-10", Words(Entry(5, 10, FindingStatus.Open)));
        Assert.Equal("isolated 2026-05-11", Words(Entry(5, 10, FindingStatus.Open), Entry(5, 11, FindingStatus.Isolated)));
        Assert.Equal("repaired 2026-06-12, not yet verified", Words(Entry(5, 10, FindingStatus.Open), Entry(6, 12, FindingStatus.Repaired)));
        Assert.Equal("repaired 2026-06-12, verified", Words(Entry(5, 10, FindingStatus.Open), Entry(6, 12, FindingStatus.Verified, Initial)));
        Assert.Equal("repaired 2026-06-11, verified 2026-06-12", Words(Entry(6, 11, FindingStatus.Repaired), Entry(6, 12, FindingStatus.Verified, Initial)));
        Assert.Equal(
            "repaired 2026-06-12, verified, followed up 2026-06-20",
            Words(Entry(6, 12, FindingStatus.Verified, Initial), Entry(6, 21, FindingStatus.FollowedUp, FollowUp)));
        Assert.Equal("reopened 2026-07-01", Words(Entry(6, 12, FindingStatus.Verified, Initial), Entry(7, 1, FindingStatus.Reopened)));
    }

    [Fact]
    public void InWords_VerifiedWithoutATest_SaysSo() =>
        Assert.Equal("repaired 2026-06-12, verified (no test on record)", Words(Entry(6, 12, FindingStatus.Verified)));

    [Fact]
    public void InWords_FailedTest_IsNamed() =>
        Assert.Equal(
            "repaired 2026-06-12, not yet verified; the initial test of 2026-06-12 failed",
            Words(Entry(6, 12, FindingStatus.Repaired, Initial with { Passed = false })));

    [Fact]
    public void Of_RepairedAgainAfterReopening_TakesTheLaterRepair()
    {
        var finding = Finding(
            Entry(6, 12, FindingStatus.Verified, Initial), Entry(7, 1, FindingStatus.Reopened), Entry(7, 5, FindingStatus.Repaired));
        Assert.Equal(TestShop.Day(7, 5), finding.Repaired);
        Assert.Null(finding.Verified);
    }

    [Fact]
    public void Of_EarlierDay_SeesOnlyWhatWasKnownThen() =>
        Assert.Equal(
            FindingStatus.Open,
            ServiceFinding.Of(Record(Entry(5, 10, FindingStatus.Open), Entry(6, 12, FindingStatus.Repaired)), TestShop.Day(6, 1)).Single().Entry.Status);

    [Fact]
    public void Of_LaterEntry_KeepsWhatItLeavesOut()
    {
        var finding = Finding(Entry(5, 10, FindingStatus.Open) with { Along = 3, Component = "valve" }, Entry(6, 12, FindingStatus.Repaired) with { Fixture = null });
        Assert.Equal(("C1", 3.0, "valve"), (finding.Entry.Fixture, finding.Entry.Along!.Value, finding.Entry.Component));
    }

    private static string Words(params ServiceEntry[] entries) => Finding(entries).InWords();

    private static ServiceFinding Finding(params ServiceEntry[] entries) => ServiceFinding.Of(Record(entries)).Single();

    private static ServiceRecord Record(params ServiceEntry[] entries) => new("test-shop", entries, []);

    private static ServiceEntry Entry(int month, int day, FindingStatus status, params VerificationTest[] tests) =>
        new() { Finding = "F1", Date = TestShop.Day(month, day), Fixture = "C1", Status = status, Tests = tests };
}
