using StoreMap.History;
using StoreMap.Sheets;
using StoreMap.Tests.History;
using StoreMap.Zones;

namespace StoreMap.Tests.Sheets;

/// <summary>A leak has one letter in all sheets of a pack.</summary>
public class CompareMarksTests
{
    [Fact]
    public void Marks_OfWhatTheLatestVisitFound_AreThoseOfItsHeatMapAndOthersGoOn()
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
        Assert.Equal(["B", "A", "D"], comparison.Zones.Select(z => marks[z]));
        Assert.Equal("C", marks[Assert.Single(comparison.Sources)]);
    }
}
