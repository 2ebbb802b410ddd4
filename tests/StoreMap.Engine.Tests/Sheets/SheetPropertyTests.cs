using StoreMap.Plans;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>Sheets of random stores: every one well formed, readable, nothing overlapping, nothing lost.</summary>
public class SheetPropertyTests
{
    private static readonly SheetContext Context = new() { Company = "Alder & Finch", Technician = "R. Alder", Issued = "2026-07-15" };

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 8)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void HeatMap_OfRandomStores_HoldsAllChecks(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed, seed % 5);
        var sheets = HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, Context with { PlanPaper = PaperSize.All[1 + (seed % 3)] });
        Assert.All(sheets, SheetChecks.AllHold);
        EveryHitFixtureIsNamed(plan, visit, sheets);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Walk_OfRandomStores_HoldsAllChecksAndListsEveryPoint(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed);
        var sheets = WalkSheet.Draw(plan, visit.Route, Context);
        Assert.All(sheets, SheetChecks.AllHold);
        var rows = sheets.Skip(1).SelectMany(s => SheetChecks.TextsOf(SheetChecks.Parse(s))).Where(t => t.Bold).Select(t => t.Text).ToHashSet();
        Assert.All(Enumerable.Range(1, visit.Route.Order.Count), n => Assert.Contains(Numbers.Whole(n), rows));
    }

    [Fact]
    public void Draw_Twice_GivesTheSameBytes()
    {
        IReadOnlyList<Sheet> Once()
        {
            var plan = SampleStore.Make(3);
            var visit = new SampleVisit(plan, 3);
            return [.. HeatMapSheet.Draw(plan, visit.Net, visit.Field, visit.Located, Context), .. WalkSheet.Draw(plan, visit.Route, Context)];
        }

        Assert.Equal(Once(), Once());
    }

    private static void EveryHitFixtureIsNamed(Plan plan, SampleVisit visit, IReadOnlyList<Sheet> sheets)
    {
        var tags = visit.Net.Readings.Where(r => r.IsHit).Select(r => plan.FindFixture(r.Reading.Place.Fixture)?.Tag).OfType<string>().Distinct();
        var onMap = SheetChecks.TextsIn(SheetChecks.Parse(sheets[0]), "labels-fixtures").Select(t => t.Text).ToHashSet();
        Assert.All(tags, tag => Assert.Contains(tag, onMap));
    }
}
