using StoreMap.Plans;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>All checks over all kinds of sheet of fifty random stores.</summary>
public class FiftyStoresTests
{
    public static TheoryData<int> Seeds => [.. Enumerable.Range(100, 50)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Sheets_OfRandomStores_HoldAllChecks(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed, seed % 6);
        var context = new SheetContext
        {
            Company = "Alder & Finch", Technician = "R. Alder", PlanPaper = PaperSize.All[seed % PaperSize.All.Count], Language = SheetContext.Languages[seed % 2],
            ColourMap = seed % 3 == 0 ? ColourMapKind.Viridis : ColourMapKind.Cividis,
        };
        var map = HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, context);
        Sheet[] sheets =
        [
            .. map, .. LeakZoneSheet.Draw(plan, visit.Net, visit.Located, context), .. WalkSheet.Draw(plan, visit.Route, context),
            .. ReportPages.Manager(plan, visit.Net, visit.Located, null, context), .. ReportPages.Cards(plan, visit.Net, visit.Located, null, context),
            .. ReportPages.Record(plan, visit.Net, visit.Located, null, context),
            .. ComparisonSheet.Draw(plan, SampleVisit.Compare(plan, seed), [new StoreMap.History.SurveyVisit(visit.Net, visit.Located)], null, context),
        ];
        Assert.All(sheets, SheetChecks.AllHold);
        EveryHitIsNamed(plan, visit, map);
    }

    /// <summary>Every fixture with a hit by its tag, on the map or in the keyed table.</summary>
    private static void EveryHitIsNamed(Plan plan, SampleVisit visit, IReadOnlyList<Sheet> map)
    {
        var tags = visit.Net.Readings.Where(r => r.IsHit).Select(r => plan.FindFixture(r.Reading.Place.Fixture)?.Tag).OfType<string>().Distinct();
        var onMap = SheetChecks.TextsIn(SheetChecks.Parse(map[0]), "labels-fixtures").Select(t => t.Text).ToHashSet();
        // A small paper may have no place for a tag; the keyed table behind the map then has it.
        var key = Words.For(map[0].Svg.Contains("xml:lang=\"de\"", StringComparison.Ordinal) ? "de" : "en");
        var keyed = map.Skip(1).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Select(t => t.Text).ToList();
        Assert.All(tags, tag => Assert.True(
            onMap.Contains(tag) || keyed.Any(t => t.StartsWith(key.Say("key.fixture", tag, ""), StringComparison.Ordinal)), $"{tag} is neither on the map nor in the keyed table"));
    }
}
