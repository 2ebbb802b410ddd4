using StoreMap.History;
using StoreMap.Sheets;
using StoreMap.Tests.History;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>A leak has one letter in all sheets of a pack.</summary>
public class CompareMarksTests
{
    [Fact]
    public void Marks_OfWhatTheLatestVisitFound_AreThoseOfItsHeatMapAndOthersComeFromTheEnd()
    {
        LeakZone old = TestShop.Zone("C1", 4.5, 5.5, 9), kept = TestShop.Zone("C1", 0.6, 1.6, 4), strongest = TestShop.Zone("C2", 1, 2, 30);
        var source = new Elsewhere("W1", 0.9, "drop D1", new(22, 12));
        var latest = TestShop.Located(strongest, kept) with { Elsewhere = [source] };
        var comparison = SurveyComparison.Compare(TestShop.Shop,
        [
            TestShop.Visit(TestShop.Day(5, 10), [TestShop.At("C1", 1, 4), TestShop.At("C1", 5, 9), TestShop.At("C2", 1.5, 0)], TestShop.Located(old, kept)),
            TestShop.Visit(TestShop.Day(6, 12), [TestShop.At("C1", 1, 4), TestShop.At("C1", 5, 0), TestShop.At("C2", 1.5, 30)], latest),
        ]);
        var marks = new CompareMarks(comparison, latest);
        Assert.Equal([ZoneChange.Recurring, ZoneChange.New, ZoneChange.NoLongerSeen], comparison.Zones.Select(z => z.Change));
        // On the heat map: A the strongest, B the one kept, C the source outside.
        Assert.Equal(["B", "A", "Z"], comparison.Zones.Select(z => marks[z]));
        Assert.Equal("C", marks[Assert.Single(comparison.Sources)]);
        Assert.Equal(["Z", "B"], new[] { old, kept }.Select(marks.Of));
    }

    /// <summary>Past the alphabet the list beside the map had signs where the map has two letters.</summary>
    [Theory]
    [InlineData(0, "A", "Z")]
    [InlineData(25, "Z", "ZA")]
    [InlineData(26, "AA", "YZ")]
    public void Letters_OfMany_NeverMeetThoseOfEarlierVisits(int index, string letter, string earlier)
    {
        Assert.Equal(letter, LeakLetters.Of(index));
        Assert.Equal(earlier, LeakLetters.Earlier(index, index == 0 ? 3 : 30));
        Assert.Empty(Enumerable.Range(0, 40).Select(LeakLetters.Of).Intersect(Enumerable.Range(0, 40).Select(i => LeakLetters.Earlier(i, 40))));
    }

    /// <summary>The months' maps on the screen had the letters of each visit: one case was B in one month and A in the next.</summary>
    [Fact]
    public void ScreenMaps_OfSeveralVisits_HaveTheLettersOfTheComparisonSheet()
    {
        LeakZone juneFirst = TestShop.Zone("C1", 4.5, 5.5, 30), juneSecond = TestShop.Zone("C2", 1, 2, 4), doubtful = TestShop.Zone("C1", 0.6, 1.6, 3, probability: 0.2), julyFirst = TestShop.Zone("C2", 1, 2, 30);
        SurveyVisit[] visits =
        [
            TestShop.Visit(TestShop.Day(6, 12), [TestShop.At("C1", 1, 3), TestShop.At("C1", 5, 30), TestShop.At("C2", 1.5, 4)], TestShop.Located(juneFirst, juneSecond, doubtful)),
            TestShop.Visit(TestShop.Day(7, 9), [TestShop.At("C1", 1, 0), TestShop.At("C1", 5, 0), TestShop.At("C2", 1.5, 30)], TestShop.Located(julyFirst)),
        ];
        var comparison = SurveyComparison.Compare(TestShop.Shop, visits);
        IReadOnlyList<string[]> Zones(Comparison? with) =>
        [
            .. ScreenMap.Draw(TestShop.Shop, [.. visits.Select(v => new ScreenVisit(v.Survey, null, v.Result))], new ScreenOptions { Layers = ScreenLayers.Zones }, with)
                .Select(p => SheetChecks.TextsIn(SheetChecks.Parse(p.Sheet), "labels-zones").Select(t => t.Text).Order(StringComparer.Ordinal).ToArray()),
        ];
        var marks = new CompareMarks(comparison, visits[^1].Result);
        Assert.Equal(["A", "Z"], comparison.Zones.OrderBy(z => z.Fixture == "C1").Select(z => marks[z]));
        Assert.Equal(["A", "Z"], Zones(comparison)[0]);
        Assert.Equal(["A"], Zones(comparison)[1]);
        Assert.Equal(["A", "B", "C"], Zones(null)[0]);
        // Under its letter stands the case that the sheet has there, not the one with the most gas that month.
        var june = ScreenMap.Draw(TestShop.Shop, [.. visits.Select(v => new ScreenVisit(v.Survey, null, v.Result))], new ScreenOptions { Layers = ScreenLayers.Zones }, comparison)[0];
        Assert.Contains(StoreMap.Sheets.Words.English.Say("plan.zone", "A", "27B"), june.Sheet.Svg, StringComparison.Ordinal);
        Assert.Contains(StoreMap.Sheets.Words.English.Say("plan.zone", "Z", "27A"), june.Sheet.Svg, StringComparison.Ordinal);
    }
}
