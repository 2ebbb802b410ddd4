using StoreMap.Plans;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

/// <summary>Sheets of random stores: nothing lost, the same bytes each time.</summary>
public class SheetPropertyTests
{
    private static readonly SheetContext Context = new() { Company = "Alder & Finch", Technician = "R. Alder", Issued = "2026-07-15" };

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 4)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Walk_OfRandomStores_ListsEveryPoint(int seed)
    {
        var plan = SampleStore.Make(seed);
        var visit = new SampleVisit(plan, seed);
        var sheets = WalkSheet.Draw(plan, visit.Route, Context);
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
}
