using StoreMap.History;

namespace StoreMap.Tests.History;

/// <summary>The order of a finding's life after 40 CFR 82.157: repair, initial verification, follow-up verification.</summary>
public class ServiceStepsTests
{
    private static readonly DateOnly Today = TestShop.Day(6, 20);

    [Fact]
    public void After_EachStatus_NoTestWithoutARepairAndNoFollowUpWithoutAnInitialTest()
    {
        foreach (var status in Enum.GetValues<FindingStatus>())
        {
            var steps = ServiceSteps.After(status);
            Assert.Equal(status == FindingStatus.Repaired, steps.Contains(ServiceStep.InitialTest));
            Assert.Equal(status == FindingStatus.Verified, steps.Contains(ServiceStep.FollowUpTest));
            Assert.Equal(status is not (FindingStatus.Open or FindingStatus.Reopened), steps.Contains(ServiceStep.Reopen));
            Assert.Contains(ServiceStep.Note, steps);
        }
    }

    [Fact]
    public void Outcome_FailedTest_ReopensTheFinding()
    {
        Assert.Equal(FindingStatus.Reopened, ServiceSteps.Outcome(ServiceStep.InitialTest, FindingStatus.Repaired, false));
        Assert.Equal(FindingStatus.Reopened, ServiceSteps.Outcome(ServiceStep.FollowUpTest, FindingStatus.Verified, false));
        Assert.Equal(FindingStatus.FollowedUp, ServiceSteps.Outcome(ServiceStep.FollowUpTest, FindingStatus.Verified, true));
        Assert.Equal(FindingStatus.Isolated, ServiceSteps.Outcome(ServiceStep.Note, FindingStatus.Isolated, false));
    }

    [Theory]
    [InlineData(ServiceStep.Repair, 18, null)]
    [InlineData(ServiceStep.Repair, 20, null)]
    [InlineData(ServiceStep.Repair, 17, "before the finding's latest entry of 2026-06-18")]
    [InlineData(ServiceStep.Repair, 21, "has not come yet")]
    [InlineData(ServiceStep.InitialTest, 19, "does not follow")]
    public void Against_AnOpenFinding_TakesOnlyWhatFollows(ServiceStep step, int day, string? why)
    {
        var finding = ServiceFinding.Of(new ServiceRecord("s", [new ServiceEntry { Finding = "F1", Date = TestShop.Day(6, 18), Fixture = "C1", Status = FindingStatus.Open }], [])).Single();
        var against = ServiceSteps.Against(finding, step, TestShop.Day(6, day), Today);
        if (why is null) Assert.Null(against);
        else Assert.Contains(why, against, StringComparison.Ordinal);
    }
}
