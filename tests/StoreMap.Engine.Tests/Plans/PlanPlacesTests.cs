using StoreMap.Plans;
using StoreMap.Tests.Routing;

namespace StoreMap.Tests.Plans;

public class PlanPlacesTests
{
    private const double Foot = 0.3048;

    private static readonly Plan Plan = LayoutDocument.Parse(CaseFiles.Text("layouts/good/every-field.layout.json")).Plan;

    private static PlanPoint Feet(double x, double y) => new(x * Foot, y * Foot);

    [Theory]
    [InlineData(160, 100, "R1")]
    [InlineData(110, 110, "W1")]
    [InlineData(90, 50, null)]
    [InlineData(500, 50, null)]
    public void RoomAt_Point_NamesRoomWalkInOrFloor(double x, double y, string? room) =>
        Assert.Equal(room, PlanPlaces.RoomAt(Plan, Feet(x, y)));

    [Fact]
    public void NearestFront_InTheAisle_GivesFixtureAndDistanceFromTheFrontsFirstPoint()
    {
        var place = PlanPlaces.NearestFront(Plan, Feet(40, 88))!;
        Assert.Equal("C3", place.Fixture.Id);
        Assert.Equal(10 * Foot, place.Along, 1e-9);
        Assert.Equal(2 * Foot, place.Distance, 1e-9);

        // The front of C4 runs from x = 93 to x = 78.
        Assert.Equal(13 * Foot, PlanPlaces.NearestFront(Plan, Feet(80, 89))!.Along, 1e-9);
    }

    [Fact]
    public void NearestFront_BeyondThreeFeet_FindsNone()
    {
        Assert.NotNull(PlanPlaces.NearestFront(Plan, Feet(40, 87.01)));
        Assert.Null(PlanPlaces.NearestFront(Plan, Feet(40, 86.99)));
    }

    [Fact]
    public void NearestFront_BesideAnIslandsFarEdge_IsOnItsBack()
    {
        var place = PlanPlaces.NearestFront(Plan, Feet(110, 46))!;
        Assert.True(place.OnBack);
        Assert.Equal(6 * Foot, place.Along, 1e-9);
    }

    [Fact]
    public void NearestFront_BehindAWall_FindsNone()
    {
        // A case with its front along a room's wall, 1 ft off it; the point stands in the room.
        const string text = """
            { "format": "storemap-layout/1", "id": "w", "name": "W", "units": "ft", "outline": [[0,0],[100,0],[100,80],[0,80]],
              "rooms": [{ "id": "R1", "outline": [[0,40],[100,40],[100,80],[0,80]], "openings": [[[50,40],[54,40]]] }],
              "fixtures": [{ "id": "C1", "kind": "open-case", "outline": [[10,35.5],[20,35.5],[20,39],[10,39]], "front": [[10,39],[20,39]] }] }
            """;
        var plan = LayoutDocument.Parse(text).Plan;
        Assert.Null(PlanPlaces.NearestFront(plan, Feet(15, 41)));
        Assert.NotNull(PlanPlaces.NearestFront(plan, Feet(15, 39.5)));
    }

    [Fact]
    public void RoomAt_RoomWithinARoom_NamesTheSmaller()
    {
        const string text = """
            { "format": "storemap-layout/1", "id": "w", "name": "W", "units": "m", "outline": [[0,0],[40,0],[40,30],[0,30]],
              "rooms": [{ "id": "big", "outline": [[0,10],[20,10],[20,30],[0,30]], "openings": [[[5,10],[7,10]]] },
                        { "id": "small", "outline": [[0,20],[5,20],[5,30],[0,30]], "openings": [[[1,20],[2,20]]] }] }
            """;
        var plan = LayoutDocument.Parse(text).Plan;
        Assert.Equal("small", PlanPlaces.RoomAt(plan, new PlanPoint(2, 25)));
        Assert.Equal("big", PlanPlaces.RoomAt(plan, new PlanPoint(10, 25)));
    }

    /// <summary>1A and 1B share drop D1, which comes down over 1B, 4 ft from 1A's end: 1A is fed through its joint and has no drop of its own.</summary>
    [Fact]
    public void DropsOver_CaseFedThroughTheOneBeside_HasNone()
    {
        var plan = DemoRoute.Plan;
        Assert.Equal(["C1", "C2"], plan.Drops.First(d => d.Id == "D1").Fixtures);
        var over = Assert.Single(PlanPlaces.DropsOver(plan, plan.FindFixture("C2")!));
        Assert.Equal(4 * LengthUnits.MetresPerFoot, plan.FindFixture("C2")!.FromLeft(over.Along), 1e-6);
        Assert.Empty(PlanPlaces.DropsOver(plan, plan.FindFixture("C1")!));
    }
}
