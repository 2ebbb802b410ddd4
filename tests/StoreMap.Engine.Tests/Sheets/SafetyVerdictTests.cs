using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>"Is it safe" is answered on evidence alone. Limits: the 8-hour exposure limits of ASHRAE 34 as the refrigerant table has them
/// (R-448A 860 ppm, R-744 5000 ppm).</summary>
public class SafetyVerdictTests
{
    private static readonly Plan Store = SampleStore.Make(3);

    [Fact]
    public void Of_NoReadingOfBreathedAir_IsNotKnownWhateverTheCasesShow()
    {
        var verdict = SafetyVerdict.Of(Store, Visit(AtCase(3), AtCase(0)));
        Assert.Equal(SafetyLevel.Unknown, verdict.Breathed);
        Assert.Contains("not known", Page(Visit(AtCase(3))), StringComparison.Ordinal);
        Assert.DoesNotContain("breathe: yes", Page(Visit(AtCase(3))), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_BreathedAirUnderTheLimit_SaysYesWithNumberPlaceAndLimit()
    {
        var page = Page(Visit(InRoom(5), AtCase(12)));
        Assert.Equal(SafetyLevel.Under, SafetyVerdict.Of(Store, Visit(InRoom(5))).Breathed);
        Assert.Contains("breathe: yes, where it was read. The highest was 5 ppm, at Sales floor; the exposure limit is 860 ppm", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_RoomsWithoutAReading_AreNamedBesideTheYes()
    {
        var verdict = SafetyVerdict.Of(Store, Visit(InRoom(5)));
        Assert.Equal(["R1", "W1"], verdict.NotRead);
        Assert.Contains("No reading of the air in: Bakery, W1", Page(Visit(InRoom(5))), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(860, ReadingBound.Exact)]
    [InlineData(500, ReadingBound.AtLeast)]
    public void Of_BreathedAirAtTheLimitOrOverRange_SaysNo(double ppm, ReadingBound bound)
    {
        Assert.Equal(SafetyLevel.Over, SafetyVerdict.Of(Store, Visit(InRoom(ppm, bound), InRoom(1))).Breathed);
        Assert.Contains("breathe: no.", Page(Visit(InRoom(ppm, bound), InRoom(1))), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_BelowTheMonitorsLimit_IsNotTakenForTheLimitItself() =>
        Assert.Equal(SafetyLevel.Under, SafetyVerdict.Of(Store, Visit(InRoom(1, ReadingBound.Below))).Breathed);

    [Fact]
    public void Safety_OverRangeWhereStaffReachIn_IsSaidFirst()
    {
        var visit = Visit(InRoom(1), AtCase(1000, ReadingBound.AtLeast), AtCase(4));
        var page = Page(visit);
        Assert.Single(SafetyVerdict.Of(Store, visit).ReachIn);
        var first = page.IndexOf("Do not reach in", StringComparison.Ordinal);
        Assert.InRange(first, 0, page.IndexOf("breathe: yes", StringComparison.Ordinal));
        Assert.Contains("over 1000 ppm", page, StringComparison.Ordinal);
        Assert.Contains("1. At once:", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_NumbersThatOnlyTellHits_AreNoEvidenceOfSafety() =>
        Assert.Equal(SafetyLevel.Unknown, SafetyVerdict.Of(Store, Visit(InRoom(2) with { HitOnly = true }, InRoom(2) with { CarryOver = true })).Breathed);

    [Fact]
    public void Of_NoKnownRefrigerant_IsNotKnown()
    {
        var bare = Store with { Systems = [], Circuits = [] };
        Assert.Equal(SafetyLevel.Unknown, SafetyVerdict.Of(bare, Visit(InRoom(5))).Breathed);
        Assert.Equal(SafetyLevel.Over, SafetyVerdict.Of(bare, Visit(InRoom(1000, ReadingBound.AtLeast))).Breathed);
    }

    [Fact]
    public void Next_SourceOutsideACase_IsToBeFoundNotWaitedFor()
    {
        var located = Nothing with { Elsewhere = [new Elsewhere("C1", 0.99, "lines overhead and under the floor here", null)] };
        var page = Page(Visit(InRoom(1), AtCase(1000, ReadingBound.AtLeast)), located);
        Assert.Contains("Find the source near", page, StringComparison.Ordinal);
        Assert.Contains("By when:", page, StringComparison.Ordinal);
        Assert.Contains("never enter alone", page, StringComparison.Ordinal);
        Assert.DoesNotContain("usual interval", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Next_OnlyACleanVisit_ReadsAtTheUsualInterval()
    {
        Assert.Contains("usual interval", Page(Visit(InRoom(1))), StringComparison.Ordinal);
        Assert.DoesNotContain("usual interval", Page(Visit(InRoom(1), AtCase(30))), StringComparison.Ordinal);
        Assert.DoesNotContain("usual interval", Page(Visit(InRoom(1)), Nothing with { NotProbed = ["C2"] }), StringComparison.Ordinal);
    }

    [Fact]
    public void Next_OverRangeThatNoLocatedLeakReaches_IsToBeProbedAgain()
    {
        // A leak of 21 ppm close by can't be where an over-range reading comes from.
        var at = Store.Fixtures[1].Front!.PointAt(1);
        var zone = new LeakZone { Fixture = "C2", Probability = 0.99, At = at, From = 0.5, To = 1.5, Center = 1, PeakPpm = 21, Strength = "large", Reason = "" };
        var visit = Visit(InRoom(1), AtCase(1000, ReadingBound.AtLeast), Net(new ReadingPlace { Fixture = "C2", Along = 1, At = at }, 21, ReadingBound.Exact));
        Assert.Contains("gas without a located leak: " + PlaceWords.Case(Store.Fixtures[0]), Page(visit, Nothing with { Zones = [zone] }), StringComparison.Ordinal);
        var weak = Visit(InRoom(1), AtCase(3), Net(new ReadingPlace { Fixture = "C2", Along = 1, At = at }, 21, ReadingBound.Exact));
        var told = Nothing with { Zones = [zone], NoLeakSeen = [new NoLeakSeen("C1", 0.95, 4, 1, 10, "the leak at C2")] };
        Assert.DoesNotContain("without a located leak", Page(weak, told), StringComparison.Ordinal);
    }

    private static LocateResult Nothing { get; } = new([], [], [], [], [], null);

    private static string Page(NetSurvey net, LocateResult? located = null)
    {
        var sheets = ReportPages.Manager(Store, net, located ?? Nothing, null, new SheetContext());
        return string.Join(' ', SheetChecks.TextsOf(SheetChecks.Parse(Assert.Single(sheets))).Select(t => t.Text));
    }

    private static NetSurvey Visit(params NetReading[] readings)
    {
        var survey = new Survey { Store = Store.Id, Start = new DateTimeOffset(2026, 3, 4, 6, 12, 0, TimeSpan.Zero), Instruments = [new Instrument { Id = "M1" }], Readings = [.. readings.Select(r => r.Reading)] };
        return new NetSurvey(survey, readings, [], []);
    }

    private static NetReading InRoom(double ppm, ReadingBound bound = ReadingBound.Exact) => Net(new ReadingPlace { At = new PlanPoint(5, 5) }, ppm, bound);

    private static NetReading AtCase(double ppm, ReadingBound bound = ReadingBound.Exact) => Net(new ReadingPlace { Fixture = "C1", Along = 1, At = Store.Fixtures[0].Front!.PointAt(1) }, ppm, bound);

    private static NetReading Net(ReadingPlace place, double ppm, ReadingBound bound) => new()
    {
        Reading = new Reading { Time = new DateTimeOffset(2026, 3, 4, 6, 12, 0, TimeSpan.Zero), Ppm = ppm, Bound = bound, Place = place },
        BackgroundPpm = 0, NetPpm = ppm, DeviationPpm = 0.5, Bound = bound, DetectionPpm = 1, ActionPpm = 2,
    };
}
