using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>Names of rooms, kept clear of what stands in them.</summary>
public class RoomNameTests
{
    private static readonly PlanPoint[] Room = [new(0, 0), new(20, 0), new(20, 10), new(0, 10)];

    [Fact]
    public void Place_EmptyRoom_IsItsMiddle() => Assert.Equal(new PlanPoint(10, 5), RoomName.Place(Room, 6, 1, []));

    /// <summary>A walk-in in the middle of a stock room hid the room's name; here it leaves a strip at one side.</summary>
    [Theory]
    [InlineData(0, 0, 13, 10)]
    [InlineData(7, 0, 20, 10)]
    [InlineData(0, 0, 20, 8)]
    [InlineData(3, 2, 20, 10)]
    public void Place_WalkInInTheRoom_IsInTheFreePart(double x0, double y0, double x1, double y1)
    {
        var at = RoomName.Place(Room, 6, 1, [(x0, y0, x1, y1)]);
        Assert.True(at.X + 3 <= x0 || at.X - 3 >= x1 || at.Y + 0.5 <= y0 || at.Y - 0.5 >= y1, $"{at}");
        Assert.InRange(at.X, 3, 17);
        Assert.InRange(at.Y, 0.5, 9.5);
    }

    /// <summary>The middle of an L's box is not in the room.</summary>
    [Fact]
    public void Place_LShapedRoom_IsInTheRoom()
    {
        PlanPoint[] room = [new(0, 0), new(20, 0), new(20, 3), new(4, 3), new(4, 10), new(0, 10)];
        var at = RoomName.Place(room, 6, 1, []);
        Assert.InRange(at.Y, 0.5, 2.5);
    }

    [Fact]
    public void Place_NoFreePart_IsTheLeastCovered()
    {
        var at = RoomName.Place(Room, 6, 1, [(0, 0, 20, 9.5), (0, 9, 20, 10)]);
        Assert.InRange(at.Y, 0.5, 9.5);
        Assert.InRange(RoomName.Place(Room, 30, 1, [(0, 0, 20, 5.6)]).Y, 6, 9.6);
    }
}
