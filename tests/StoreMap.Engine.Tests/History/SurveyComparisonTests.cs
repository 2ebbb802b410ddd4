using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.History.TestShop;

namespace StoreMap.Tests.History;

/// <summary>Rules of comparing visits on equal terms: same state, spot and gas; unlike detection limits at the larger (science of
/// left-censored data, e.g. Helsel 2012); Mann-Kendall trend. Worked by hand.</summary>
public class SurveyComparisonTests
{
    private static readonly DateOnly May = Day(5, 10), June = Day(6, 12), July = Day(7, 9);

    [Fact]
    public void Compare_ZonesOverThreeVisits_AreRecurringNewAndNoLongerSeen()
    {
        var result = SurveyComparison.Compare(Shop,
        [
            Visit(May, [At("C1", 1, 4), At("C1", 5, 9), At("C2", 2, 0.5)], Located(Zone("C1", 0.6, 1.6, 4), Zone("C1", 4.5, 5.5, 9))),
            Visit(June, [At("C1", 1, 6), At("C1", 5, 0.2), At("C2", 2, 0.1)], Located(Zone("C1", 0.8, 1.4, 6))),
            Visit(July, [At("C1", 1.2, 12), Below("C1", 5), At("C2", 2, 7)], Located(Zone("C2", 1.5, 2.5, 7), Zone("C1", 1, 1.5, 12))),
        ]);
        Assert.Equal([May, June, July], result.Dates);
        Assert.Equal(
            [("C1", ZoneChange.Recurring), ("C2", ZoneChange.New), ("C1", ZoneChange.NoLongerSeen)],
            result.Zones.Select(z => (z.Fixture, z.Change)));
        Assert.Equal([4.0, 6.0, 12.0], result.Zones[0].Visits.Select(v => v.PeakPpm!.Value));
        Assert.Equal((1, 1.5), (result.Zones[0].From!.Value, result.Zones[0].To!.Value));
        Assert.Equal([true, false, false], result.Zones[2].Visits.Select(v => v.Hit));
        Assert.Equal([true, false, false], result.Zones[2].Visits.Select(v => v.Seen));
        Assert.True(result.Zones[2].Visits[2].Below);
        Assert.Contains("Nothing above 1 ppm on 2026-07-09", result.Zones[2].Note);
        Assert.Contains("No repair in that time is on record", result.Zones[2].Note);
        Assert.Contains("Nothing above 1 ppm here before", result.Zones[1].Note);
        Assert.Empty(result.NotComparable);
        Assert.All(result.Zones, z => Assert.Null(z.Trend));
    }

    // By hand: C1 has its highest at 5 m, then at 1 m twice; four visits 9, 6, 12, 15 give S = 4 of 6 pairs, p = 2·4/24 (Kendall's table for n = 4).
    [Fact]
    public void Compare_FixturesOverFourVisits_HaveTheHighestAnywhereOnThemAndATrend()
    {
        NetReading FansOff(double net) => At("C1", 2, net, n => n with { Reading = n.Reading with { Air = AirState.FansOff } });
        var result = SurveyComparison.Compare(Shop,
        [
            Visit(May, [At("C1", 1, 4), At("C1", 5, 9), At("C2", 2, 0.5)], Located(Zone("C1", 0.6, 1.6, 4), Zone("C1", 4.5, 5.5, 9))),
            Visit(June, [At("C1", 1, 6), At("C1", 5, 0.2), FansOff(90), At("C2", 2, 0.1)], Located()),
            Visit(July, [At("C1", 1.2, 12), Below("C1", 5), At("C2", 2, 0.7)], Located(Zone("C1", 1, 1.5, 12))),
            Visit(Day(8, 6), [At("C1", 1, 15), Below("C2", 1)], Located(Zone("C1", 1, 1.5, 15))),
        ]);
        var fixture = Assert.Single(result.Fixtures);
        Assert.Equal("C1", fixture.Fixture);
        Assert.Equal([9.0, 6.0, 12.0, 15.0], fixture.Visits.Select(v => v.PeakPpm!.Value));
        Assert.Equal([true, false, true, true], fixture.Visits.Select(v => v.Seen));
        Assert.Equal(4, fixture.Trend!.S);
        Assert.Equal(8.0 / 24, fixture.Trend.P, 1e-9);
    }

    /// <summary>Gas whose source is not placed in a case is followed like a zone: by the fixture where it was met, or by its place.</summary>
    [Fact]
    public void Compare_SourcesOutsideTheCases_AreRecurringNewAndNoLongerSeen()
    {
        var line = new Elsewhere("C1", 0.9, "pipe run L7, overhead", new PlanPoint(3, 12));
        var moved = line with { Near = "C2", At = new PlanPoint(4, 12.5) };
        var unexplained = new Elsewhere("C2", 0.5, "probe again", new PlanPoint(12, 10)) { Unexplained = true };
        var faint = new Elsewhere("C2", 0.4, "drop", new PlanPoint(11, 10));
        NetReading[] readings = [At("C1", 1, 9), At("C2", 1, 5)];
        SourceHistory Only(params LocateResult[] results) =>
            Assert.Single(SurveyComparison.Compare(Shop, [.. results.Select((r, i) => Visit(new[] { May, June, July }[i], readings, r))]).Sources);
        LocateResult With(params Elsewhere[] e) => Located() with { Elsewhere = e };

        var recurring = Only(With(line), With(), With(moved, faint));
        Assert.Equal((ZoneChange.Recurring, "C2", "Seen at 2 of 3 visits."), (recurring.Change, recurring.Near, recurring.Note));
        Assert.Equal([May, July], recurring.Seen);
        Assert.Same(moved, recurring.Now);
        var first = Only(With(), With(), With(unexplained));
        Assert.Equal((ZoneChange.New, "First seen 2026-07-09."), (first.Change, first.Note));

        var stillGas = Only(With(line), With(), With());
        Assert.Equal(ZoneChange.Recurring, stillGas.Change);
        Assert.Contains("put down to another place", stillGas.Note);
        Assert.Null(stillGas.Now);
        SourceHistory Gone(NetReading now) => Assert.Single(SurveyComparison.Compare(Shop, [Visit(May, readings, With(line)), Visit(July, [now], With())]).Sources);
        Assert.Equal(ZoneChange.NoLongerSeen, Gone(Below("C1", 1)).Change);
        Assert.Equal(ZoneChange.NotComparable, Gone(At("C2", 1, 0)).Change);
        Assert.Equal(ZoneChange.NotComparable, Gone(At("C1", 1, 0, r => r with { Reading = r.Reading with { Air = AirState.FansOff } })).Change);
    }

    [Fact]
    public void Compare_VisitsInAnyOrder_AreSortedByTheirStart()
    {
        SurveyVisit a = Visit(May, [At("C1", 1, 4)], Located(Zone("C1", 0.5, 1.5, 4))), b = Visit(July, [At("C1", 1, 0)], Located());
        Assert.Equal(ZoneChange.NoLongerSeen, Assert.Single(SurveyComparison.Compare(Shop, [b, a]).Zones).Change);
    }

    public static TheoryData<string, Func<NetReading, NetReading>> Unlike => new()
    {
        { "fans off 2026-06-12, fans on 2026-07-09", n => n with { Reading = n.Reading with { Air = AirState.FansOff } } },
        { "cover closed 2026-06-12, cover none 2026-07-09", n => n with { Reading = n.Reading with { Detail = new AirDetail(null, "closed", null, null) } } },
        { "at the base 2026-06-12, at the front 2026-07-09", n => n with { Reading = n.Reading with { Spot = Spot.KickPlate } } },
        { "R-404A 2026-06-12, R-448A 2026-07-09", n => n with { Reading = n.Reading with { Gas = "R-404A" } } },
        { "cooling off-cycle 2026-06-12, cooling on 2026-07-09", n => n with { Reading = n.Reading with { Detail = new AirDetail("off-cycle", null, null, null) } } },
        { "hit or no hit only 2026-06-12", n => n with { HitOnly = true } },
    };

    [Theory]
    [MemberData(nameof(Unlike))]
    public void Compare_UnlikeState_IsListedWithItsReasonAndNotJudged(string reason, Func<NetReading, NetReading> change)
    {
        var result = SurveyComparison.Compare(Shop,
        [
            Visit(June, [At("C1", 1, 30, change)], Located(Zone("C1", 0.5, 1.5, 30))), Visit(July, [At("C1", 1, 0)], Located()),
        ]);
        var zone = Assert.Single(result.Zones);
        Assert.Equal(ZoneChange.NotComparable, zone.Change);
        Assert.Null(zone.Visits[0].PeakPpm);
        Assert.Contains(reason, zone.Note);
        var unlike = Assert.Single(result.NotComparable);
        Assert.Equal(("C1", reason), (unlike.Fixture, unlike.Reason));
        Assert.Equal([June, July], unlike.Dates);
    }

    [Fact]
    public void Compare_LikeReadingsBesideUnlikeOnes_UseTheLikeOnes()
    {
        NetReading FansOff(double net) => At("C1", 1, net, n => n with { Reading = n.Reading with { Air = AirState.FansOff } });
        var zone = Assert.Single(SurveyComparison.Compare(Shop,
        [
            Visit(June, [At("C1", 1, 8), FansOff(90)], Located(Zone("C1", 0.5, 1.5, 90))), Visit(July, [At("C1", 1, 5)], Located(Zone("C1", 0.5, 1.5, 5))),
        ]).Zones);
        Assert.Equal([8.0, 5.0], zone.Visits.Select(v => v.PeakPpm!.Value));
        Assert.Equal(ZoneChange.Recurring, zone.Change);
    }

    [Fact]
    public void Compare_NotProbedAtTheLatestVisit_IsNotComparable()
    {
        var result = SurveyComparison.Compare(Shop, [Visit(June, [At("C1", 1, 8)], Located(Zone("C1", 0.5, 1.5, 8))), Visit(July, [At("C2", 1, 0)], Located())]);
        Assert.Equal(ZoneChange.NotComparable, Assert.Single(result.Zones).Change);
        Assert.Equal(["not probed 2026-07-09", "not probed 2026-06-12"], result.NotComparable.Select(n => n.Reason));
    }

    [Fact]
    public void Compare_ZoneStretchNotProbedThoughItsFixtureWas_IsNotComparable()
    {
        var result = SurveyComparison.Compare(Shop,
            [Visit(June, [At("C1", 1, 8), At("C1", 5, 0)], Located(Zone("C1", 0.5, 1.5, 8))), Visit(July, [At("C1", 5, 0)], Located())]);
        Assert.Equal(ZoneChange.NotComparable, Assert.Single(result.Zones).Change);
        Assert.Single(result.NotComparable, n => n.Fixture == "C1");
    }

    [Fact]
    public void Compare_UnlikeDetectionLimits_AreComparedAtTheLarger()
    {
        // 3 ppm in June would not have shown on July's monitor, whose limit is 5; 20 ppm would.
        ZoneChange Change(double june) => Assert.Single(SurveyComparison.Compare(Shop,
            [Visit(June, [At("C1", 1, june)], Located(Zone("C1", 0.5, 1.5, june))), Visit(July, [Below("C1", 1, 5)], Located())]).Zones).Change;
        Assert.Equal(ZoneChange.NotComparable, Change(3));
        Assert.Equal(ZoneChange.NoLongerSeen, Change(20));
    }

    [Fact]
    public void Compare_NewZoneUnderAnEarlierLargerLimit_SaysItMayBeOlder() =>
        Assert.Contains("may be older", Assert.Single(SurveyComparison.Compare(Shop,
            [Visit(June, [Below("C1", 1, 5)], Located()), Visit(July, [At("C1", 1, 3)], Located(Zone("C1", 0.5, 1.5, 3)))]).Zones).Note);

    [Fact]
    public void Compare_OverRange_IsKeptAsAtLeast()
    {
        var zone = Assert.Single(SurveyComparison.Compare(Shop,
        [
            Visit(June, [At("C1", 1, 999, n => n with { Bound = ReadingBound.AtLeast }), At("C1", 1.2, 300)], Located(Zone("C1", 0.5, 1.5, 999))),
            Visit(July, [At("C1", 1, 40)], Located(Zone("C1", 0.5, 1.5, 40))),
        ]).Zones);
        Assert.Equal([true, false], zone.Visits.Select(v => v.AtLeast));
        Assert.Contains("at least 999 ppm 2026-06-12", zone.Note);
    }

    [Fact]
    public void Compare_CarryOverAboveTheDetectionLevel_ProvesNothing()
    {
        var carried = At("C1", 1, 60, n => n with { Bound = ReadingBound.Below, CarryOver = true });
        Assert.Equal(ZoneChange.NotComparable, Assert.Single(SurveyComparison.Compare(Shop,
            [Visit(June, [At("C1", 1, 8)], Located(Zone("C1", 0.5, 1.5, 8))), Visit(July, [carried], Located())]).Zones).Change);
    }

    [Fact]
    public void Compare_GasWithoutAZone_IsNotCalledNoLongerSeen()
    {
        var zone = Assert.Single(SurveyComparison.Compare(Shop,
            [Visit(June, [At("C1", 1, 8)], Located(Zone("C1", 0.5, 1.5, 8))), Visit(July, [At("C1", 1, 3)], Located())]).Zones);
        Assert.Equal(ZoneChange.Recurring, zone.Change);
        Assert.Contains("no zone was located", zone.Note);
    }

    [Fact]
    public void Compare_RepairOnRecord_IsSaidInItsWordsNeverFromReadings()
    {
        ServiceRecord record = new("test-shop",
        [
            new ServiceEntry { Finding = "F1", Date = June, Fixture = "C1", Along = 1.2, Status = FindingStatus.Open },
            new ServiceEntry
            {
                Finding = "F1", Date = Day(6, 14), Status = FindingStatus.Verified, Tests = [new VerificationTest(Day(6, 14), "initial", "bubble", true)],
            },
        ], []);
        SurveyVisit june = Visit(June, [At("C1", 1, 8), At("C2", 1, 9)], Located(Zone("C1", 0.5, 1.5, 8), Zone("C2", 0.5, 1.5, 9)));
        var clean = SurveyComparison.Compare(Shop, [june, Visit(July, [At("C1", 1, 0), At("C2", 1, 0)], Located())], record);
        Assert.Equal(["repaired 2026-06-14, verified", null], clean.Zones.Select(z => z.Service));
        Assert.Contains("The service record has a repair on 2026-06-14", clean.Zones[0].Note);
        Assert.DoesNotContain("repaired", clean.Zones[1].Note);
        Assert.All(clean.Zones, z => Assert.Equal(ZoneChange.NoLongerSeen, z.Change));
        var again = SurveyComparison.Compare(Shop, [june, Visit(July, [At("C1", 1, 7)], Located(Zone("C1", 0.8, 1.8, 7)))], record);
        Assert.Contains("Seen again after the repair of 2026-06-14", again.Zones[0].Note);
    }

    [Fact]
    public void Compare_FindingElsewhereOnTheFixture_IsNotTheZones()
    {
        ServiceRecord record = new("test-shop", [new ServiceEntry { Finding = "F1", Date = June, Fixture = "C1", Along = 5, Status = FindingStatus.Open }], []);
        Assert.Null(SurveyComparison.Compare(Shop, [Visit(July, [At("C1", 1, 8)], Located(Zone("C1", 0.5, 1.5, 8)))], record).Zones[0].Service);
    }

    [Fact]
    public void Compare_FourVisits_HaveATrend()
    {
        double[] peaks = [3, 5, 8, 14];
        var visits = peaks.Select((p, i) => Visit(May.AddDays(30 * i), [At("C1", 1, p)], Located(Zone("C1", 0.5, 1.5, p)))).ToList();
        var trend = SurveyComparison.Compare(Shop, visits).Zones[0].Trend!;
        Assert.Equal(6, trend.S);
        Assert.Equal(2 / 24.0, trend.P, 12);
        // Slopes per 30 days: 2, 3, 6, 2.5, 4.5, 11/3; the median is 10/3.
        Assert.Equal(10 / 3.0, trend.SlopePerMonth, 9);
        Assert.Null(SurveyComparison.Compare(Shop, visits[1..]).Zones[0].Trend);
    }

    [Fact]
    public void Compare_TrendUnderALargerLimit_TiesWhatLiesBelowIt()
    {
        double[] peaks = [3, 4, 2, 20, 30];
        var visits = peaks.Select((p, i) => Visit(May.AddDays(30 * i), [At("C1", 1, p, n => n with { DetectionPpm = i == 1 ? 5 : 1 })], Located(Zone("C1", 0.5, 1.5, p)))).ToList();
        // At 5 ppm the first three tie: only the seven pairs with 20 or 30 rise.
        Assert.Equal(7, SurveyComparison.Compare(Shop, visits).Zones[0].Trend!.S);
    }

    [Fact]
    public void Compare_UnsureZones_AreLeftOut() =>
        Assert.Empty(SurveyComparison.Compare(Shop, [Visit(July, [At("C1", 1, 8)], Located(Zone("C1", 0.5, 1.5, 8, probability: 0.4)))]).Zones);

    [Fact]
    public void Compare_TwoLeaksOnOneCase_StayTwo()
    {
        var result = SurveyComparison.Compare(Shop,
        [
            Visit(June, [At("C1", 1, 8), At("C1", 4, 6)], Located(Zone("C1", 0.5, 3, 8))),
            Visit(July, [At("C1", 1, 8), At("C1", 4, 6)], Located(Zone("C1", 2.8, 4.5, 6), Zone("C1", 0.8, 1.6, 8))),
        ]);
        Assert.Equal([ZoneChange.Recurring, ZoneChange.New], result.Zones.Select(z => z.Change));
        Assert.Equal(0.8, result.Zones[0].From);
    }

    [Fact]
    public void Compare_WalkIn_IsOnePlace()
    {
        StoreMap.Zones.LeakZone In(double x) => Zone("C1", 0, 1, 9) with { Fixture = "W1", From = null, To = null, Center = null, At = new PlanPoint(x, 12), Radius = 1 };
        var placed = At("W1", null, 9);
        var byPlace = placed with { Reading = placed.Reading with { Place = placed.Reading.Place with { Fixture = null, Room = "W1" } } };
        var zone = Assert.Single(SurveyComparison.Compare(Shop, [Visit(June, [placed], Located(In(21))), Visit(July, [byPlace], Located(In(24)))]).Zones);
        Assert.Equal(ZoneChange.Recurring, zone.Change);
        Assert.Equal([9.0, 9.0], zone.Visits.Select(v => v.PeakPpm!.Value));
    }

    [Fact]
    public void Compare_NoVisit_IsRefused() => Assert.Throws<ArgumentException>(() => SurveyComparison.Compare(Shop, []));
}
