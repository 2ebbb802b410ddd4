using CsCheck;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.History.TestShop;

namespace StoreMap.Tests.History;

/// <summary>Mass balance worked by hand: strength in kilograms a year times days over 365; leak rate by 40 CFR 84.102.</summary>
public class MassBalancesTests
{
    private static readonly DateOnly May = Day(5, 10), June = Day(6, 9), July = Day(7, 9); // 30 days apart

    private static readonly NetReading[] BothCases = [At("C1", 1, 9), At("C2", 1, 0)];

    [Fact]
    public void Of_LeakSeenAtEveryVisit_LosesItsStrengthTimesTheDays()
    {
        var balance = Assert.Single(MassBalances.Of(Shop, Seen(All(10, 40), All(12, 30), All(8, 50)), Added((June, 5), (July, 4))));
        Assert.Equal(("A", "R-448A", 60, 9.0), (balance.System, balance.Refrigerant, balance.Days, balance.AddedKilograms));
        Assert.Equal((10 + 8) * 30 / 365.0, balance.ExplainedLowKilograms, 9);
        Assert.Equal((40 + 50) * 30 / 365.0, balance.ExplainedHighKilograms, 9);
        Assert.True(balance.AddsUp);
        Assert.Equal(4 / 600.0 * 365 / 30 * 100, balance.AnnualisedPercent!.Value, 9);
    }

    /// <summary>A source outside the cases has no strength to set against what was added; it is named beside the verdict.</summary>
    [Fact]
    public void Of_SourceOutsideTheCasesOnTheSystem_IsNamedAsWhatMayBeMissing()
    {
        var visit = Visit(July, BothCases, Located() with { Elsewhere = [new("C1", 0.9, "pipe run L7", null), new("W1", 0.9, "drop", null), new("C2", 0.3, "drop", null)] });
        var balance = Assert.Single(MassBalances.Of(Shop, [.. Seen([]), visit], Added((July, 9))));
        Assert.False(balance.AddsUp);
        Assert.Equal(["C1"], balance.SourcesNear);
    }

    [Fact]
    public void Of_MoreAddedThanTwiceTheHighEnd_DoesNotAddUp()
    {
        // High end 40 · 60 / 365 = 6.575 kg: half of 13.15 kg.
        var visits = Seen(All(10, 40), All(10, 40), All(10, 40));
        Assert.True(Assert.Single(MassBalances.Of(Shop, visits, Added((July, 13.1)))).AddsUp);
        Assert.False(Assert.Single(MassBalances.Of(Shop, visits, Added((July, 13.2)))).AddsUp);
        Assert.False(Assert.Single(MassBalances.Of(Shop, Seen([], [], []), Added((July, 0.1)))).AddsUp);
    }

    [Fact]
    public void Of_LeakSeenAtOneVisitOnly_MayHaveBegunOrEndedAnyDay()
    {
        var balance = Assert.Single(MassBalances.Of(Shop, Seen([], All(10, 40), []), Added((July, 4))));
        Assert.Equal(0, balance.ExplainedLowKilograms);
        Assert.Equal(40 * 60 / 365.0, balance.ExplainedHighKilograms, 9);
    }

    [Fact]
    public void Of_LeakRepairedBetweenVisits_EndsWithTheRepair()
    {
        var record = Added((July, 4)) with
        {
            Entries = [new ServiceEntry { Finding = "F1", Date = June.AddDays(10), Fixture = "C1", Along = 1, Status = FindingStatus.Repaired }],
        };
        Assert.Equal(40 * 40 / 365.0, Assert.Single(MassBalances.Of(Shop, Seen([], All(10, 40), []), record)).ExplainedHighKilograms, 9);
    }

    [Fact]
    public void Of_RecoveredRefrigerant_IsTakenOff() =>
        Assert.Equal(3, Assert.Single(MassBalances.Of(Shop, Seen([], []), new ServiceRecord("test-shop", [],
            [new RefrigerantMovement(June, "A", "R-448A", 5, 0), new RefrigerantMovement(June, "A", "R-448A", 0, 2)]))).AddedKilograms, 9);

    [Fact]
    public void Of_OneVisit_CoversTheDaysSinceTheFirstAdditionOfTheYear()
    {
        var visit = Visit(July, BothCases, Located(All(10, 40)));
        var two = Assert.Single(MassBalances.Of(Shop, [visit], Added((May, 20), (July, 4))));
        Assert.Equal((60, 4.0), (two.Days, two.AddedKilograms));
        Assert.Equal(40 * 60 / 365.0, two.ExplainedHighKilograms, 9);
        var one = Assert.Single(MassBalances.Of(Shop, [visit], Added((May, 20))));
        Assert.Equal((365, 20.0), (one.Days, one.AddedKilograms));
        Assert.Equal((10.0, 40.0), (one.ExplainedLowKilograms, one.ExplainedHighKilograms));
        Assert.Empty(MassBalances.Of(Shop, [visit], Added((May.AddYears(-2), 20))));
    }

    [Fact]
    public void Of_OtherSystemsAndUnsureZones_ExplainNothing()
    {
        var visit = Visit(July, BothCases, Located(All(10, 40)));
        var other = new ServiceRecord("test-shop", [], [new RefrigerantMovement(May, "B", "R-404A", 5, 0)]);
        var balance = Assert.Single(MassBalances.Of(Shop, [visit], other));
        Assert.Equal(("B", 0.0, false), (balance.System, balance.ExplainedHighKilograms, balance.AddsUp));
        Assert.Null(balance.AnnualisedPercent);
        var unsure = Visit(July, BothCases, Located(Zone("C1", 0.5, 1.5, 9, 0.3)));
        Assert.Equal(0, Assert.Single(MassBalances.Of(Shop, [unsure], Added((May, 20)))).ExplainedHighKilograms);
    }

    [Fact]
    public void Of_NotChecked_ListsFixturesEquipmentPipesAndUntracedGas()
    {
        var result = Located() with { Elsewhere = [new Elsewhere("C1", 0.7, "the drop D4", null)] };
        var visit = Visit(July, [At("C1", 1, 9)], result);
        Assert.Equal(
            ["27B: not probed", "rack Q1 (mezzanine): no check on record", "pipe run L7 (ceiling): no check on record",
                "source of the gas near 27A, probably outside the case: the drop D4"],
            Assert.Single(MassBalances.Of(Shop, [visit], Added((May, 20)))).NotChecked);
    }

    [Fact]
    public void Of_ChecklistStopAtTheRack_CountsAsChecked()
    {
        var visit = Visit(July, BothCases, Located());
        var stop = new ProbePoint { Id = "K1", Equipment = "Q1", Pass = ProbePass.Checklist, At = new PlanPoint(28, 18), Stand = new PlanPoint(28, 17) };
        var reading = BothCases[1].Reading with { Place = new ReadingPlace { Point = "K1", At = stop.At } };
        var survey = visit.Survey.Survey with { Readings = [.. visit.Survey.Survey.Readings, reading] };
        var withStop = visit with { Survey = visit.Survey with { Survey = survey }, Points = [stop] };
        Assert.Equal(["pipe run L7 (ceiling): no check on record"], Assert.Single(MassBalances.Of(Shop, [withStop], Added((May, 20)))).NotChecked);
    }

    [Fact]
    public void Of_CoverageOfTheSurvey_IsTakenAtItsWord()
    {
        IReadOnlyList<string> NotChecked(SystemCoverage coverage) =>
            Assert.Single(MassBalances.Of(Shop, [Visit(July, BothCases, Located(), [coverage])], Added((May, 20)))).NotChecked;
        Assert.Equal(["condenser on the roof"], NotChecked(new SystemCoverage("A", false, ["condenser on the roof"])));
        Assert.Empty(NotChecked(new SystemCoverage("A", true, [])));
    }

    [Fact]
    public void Of_StrongerLeak_NeverExplainsLess() =>
        (from high in Gen.Double[0, 100] from more in Gen.Double[0, 100] from added in Gen.Double[0.1, 50] select (high, more, added)).Sample(d =>
        {
            MassBalance Balance(double high) => MassBalances.Of(Shop, Seen(All(0, high), All(0, high)), Added((June, d.added)))[0];
            MassBalance less = Balance(d.high), more = Balance(d.high + d.more);
            Assert.True(more.ExplainedHighKilograms >= less.ExplainedHighKilograms);
            Assert.True(!less.AddsUp || more.AddsUp);
        });

    private static LeakZone[] All(double low, double high) => [Zone("C1", 0.5, 1.5, 9, low: low, high: high)];

    private static List<SurveyVisit> Seen(params LeakZone[][] zones) => [.. zones.Select((z, i) => Visit(May.AddDays(30 * i), BothCases, Located(z)))];

    private static ServiceRecord Added(params (DateOnly Day, double Kilograms)[] additions) =>
        new("test-shop", [], [.. additions.Select(a => new RefrigerantMovement(a.Day, "A", "R-448A", a.Kilograms, 0))]);
}
