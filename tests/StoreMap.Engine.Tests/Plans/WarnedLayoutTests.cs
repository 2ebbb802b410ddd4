using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>What real stores have is a warning with a safe default; every step runs with warnings.</summary>
public class WarnedLayoutTests
{
    private const double Foot = 0.3048;

    private static readonly LayoutDocument Document = LayoutDocument.Parse(CaseFiles.Text("layouts/warned/real-store.layout.json"));

    private static Fixture Fixture(string id) => Document.Plan.FindFixture(id)!;

    [Fact]
    public void Read_RealStore_WarnsOfEachOddity() => Assert.Equal(
        string.Join('\n', File.ReadAllLines(CaseFiles.PathOf("layouts/warned/expected.txt"))),
        string.Join('\n', Document.Warnings.Select(p => $"{p.Rule} | {p.Element} | {p.Field}")));

    [Fact]
    public void Read_EndPanels_AreSplitBetweenBothEnds()
    {
        // 24 ft of sections on 24.25 ft of front: the joint stays in the middle.
        Assert.Equal([0, 12.125 * Foot, 24.25 * Foot], Fixture("C1").Sections.SelectMany(s => new[] { s.From, s.To }).Distinct().Select(v => Math.Round(v, 9)));
        Assert.Equal(6, Fixture("C1").Panels.Count);
    }

    [Fact]
    public void Read_DoorwayOffItsWall_IsMovedIntoTheWall()
    {
        var opening = Document.Plan.Rooms[0].Openings[0];
        Assert.Equal(new PlanSegment(new PlanPoint(10 * Foot, 60 * Foot), new PlanPoint(14 * Foot, 60 * Foot)), opening);
    }

    [Fact]
    public void Read_DoorCaseWithoutDoors_TakesOneForThirtyInches() => Assert.Equal(5, Fixture("C2").Doors);

    [Fact]
    public void Read_ChargeWithoutUnit_TakesPoundsInAFootLayout() => Assert.Equal(90 * 0.45359237, Fixture("S1").ChargeKilograms!.Value, 1e-9);

    [Fact]
    public void Read_FieldForAnotherKind_IsNotUsed()
    {
        Assert.Null(Fixture("C3").Refrigerant);
        Assert.Null(Fixture("C3").Back);
        Assert.Null(Fixture("C2").Opening);
        Assert.Null(Fixture("W1").Front);
    }
}
