using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Walking;

namespace StoreMap.Tests.Routing;

/// <summary>Rooms and areas that may be entered at certain hours only. Times worked out by hand from the protocol.</summary>
public class EntryHoursTests
{
    /// <summary>Cases to the left and to the right of the way in, the room between them: the shortest round takes it in the middle.</summary>
    private static Fixture[] RoomInTheMiddle =>
        [Case("B1", 5, 75, 70), Case("B2", 5, 92, 70), Case("C1", 10, 20, 60), Case("C2", 10, 40, 60), Case("C3", 110, 30, 60), Case("C4", 110, 60, 60)];

    private static readonly TourBudget Quick = new() { Effort = 500, BoundWork = 1_000_000 };

    [Theory]
    [InlineData("21:00", "07:00", "22:00", 540)]
    [InlineData("21:00", "07:00", "06:00", 60)]
    [InlineData("06:00", "10:00", "05:30", 270)]
    public void Minutes_OfHoursPastMidnight_AreThoseLeft(string from, string to, string begin, double shut)
    {
        var place = new TimedPlace("X", "X", [(Time(from), Time(to))]);
        Assert.Equal(shut, EntryHours.Minutes([place], Time(begin)).First(h => h.To > 0).To, 1e-9);
    }

    [Fact]
    public void Minutes_OfTwoPlaces_AreThoseOfBoth()
    {
        TimedPlace[] places = [new("A", "A", [(Time("05:00"), Time("09:00"))]), new("B", "B", [(Time("08:00"), Time("12:00"))])];
        Assert.Contains((120.0, 180.0), EntryHours.Minutes(places, Time("06:00")));
    }

    [Fact]
    public void Route_RoomThatOpensSoon_WaitsUntilThen()
    {
        // A store of nothing but the prep room: sign-in 10, warm-up 5, zero 2 minutes, so that the walk is there before 06:25.
        var route = Plan(Store([], Case("C1", 20, 80, 24)), "06:00", ("06:25", "08:00"));
        var visit = Assert.Single(route.Clock!.Visits);
        Assert.Equal((TimedVisitKind.Wait, "R1"), (visit.Kind, visit.Place.Id));
        Assert.Equal(25, (visit.At - Time("06:00")).TotalMinutes + visit.WaitMinutes, 0.02);
        var entered = route.Order.ToList().IndexOf(visit.Before);
        Assert.All(Enumerable.Range(entered, route.Order.Count - entered), i => Assert.True(route.Clock.Read[i] > Time("06:25")));
        Assert.Equal(route.Minutes.Total + visit.WaitMinutes, (route.Clock.End - route.Clock.Begin).TotalMinutes, 0.03);
    }

    [Fact]
    public void Route_RoomThatOpensLate_IsWalkedLastInsteadOfWaitedFor()
    {
        var cases = RoomInTheMiddle;
        var usual = Plan(Store([], cases), "06:00", ("00:01", "23:59"));
        var order = usual.Order.ToList();
        var room = usual.Points.Where(p => p.Fixture?.StartsWith('B') == true).Select(p => order.IndexOf(p.Id)).Min();
        // One minute after the usual order comes by is waited for; half an hour after is not: the order changes.
        foreach (var minutes in new[] { 1, 28 })
        {
            var opens = usual.Clock!.Read[room].AddMinutes(minutes);
            var route = Plan(Store([], cases), "06:00", (opens.ToString("HH:mm", null), "23:59"));
            Assert.Equal(order.Order(), route.Order.Order());
            Assert.DoesNotContain(route.Clock!.Visits, v => v.Kind == TimedVisitKind.Outside);
            Assert.True(route.Clock.End <= usual.Clock.End.AddMinutes(minutes + 1.1));
            Assert.Equal(order.SequenceEqual(route.Order), route.Clock.Change is null);
            if (minutes > 1) Assert.NotNull(route.Clock.Change);
            foreach (var p in route.Points.Where(p => p.Fixture?.StartsWith('B') == true))
                Assert.True(route.Clock.Read[route.Order.ToList().IndexOf(p.Id)] >= opens.AddMinutes(-1));
            Assert.Equal(route.Order, Plan(Store([], cases), "06:00", (opens.ToString("HH:mm", null), "23:59")).Order);
        }
    }

    [Fact]
    public void Route_SalesFloorBeforeOpening_IsWalkedBeforeTheBackRooms()
    {
        var fixtures = RoomInTheMiddle;
        var shut = FloorDone(Plan(Store([], fixtures), "06:00", ("00:01", "23:59"))).AddMinutes(-2);
        shut = new(shut.Hour, shut.Minute);
        var plan = Store([new("F1", "Sales floor", StoreScene.Box(0, 0, 200, 100), [(Time("21:00"), shut)])], fixtures);
        var route = Plan(plan, "06:00", ("00:01", "23:59"));
        Assert.True(FloorDone(route) <= shut);
        Assert.True(route.Clock!.Change?.OutsideBefore > 0);
        Assert.DoesNotContain(route.Clock!.Visits, v => v.Kind == TimedVisitKind.Outside);
    }

    [Fact]
    public void Route_HoursThatCanNotBeMet_AreWarnedOfAndEveryPointIsStillWalked()
    {
        var plan = Store([], Case("C1", 20, 80, 24), Case("C2", 120, 40, 24));
        var route = Plan(plan, "06:00", ("12:00", "13:00"));
        var visit = Assert.Single(route.Clock!.Visits, v => v.Kind == TimedVisitKind.Outside);
        Assert.Equal("R1", visit.Place.Id);
        Assert.Equal(Plan(plan, "06:00", ("00:01", "23:59")).Order.Order(), route.Order.Order());
        // No wait of six hours.
        Assert.Equal(route.Minutes.Total, (route.Clock.End - route.Clock.Begin).TotalMinutes, 0.03);
    }

    [Fact]
    public void At_WalkInBehindARoom_HasTheRoomsHours()
    {
        var plan = Store([], StoreScene.WalkIn("W1", 20, 85, 12, 10));
        plan = plan with { Rooms = [plan.Rooms[0] with { Entry = [(Time("06:00"), Time("10:00"))] }] };
        var inside = new ProbePoint { Id = "p", Fixture = "W1", Pass = ProbePass.LowHigh, Room = "W1", At = StoreScene.Feet(26, 90), Stand = StoreScene.Feet(26, 90) };
        Assert.Equal("R1", Assert.Single(EntryHours.At(plan, inside)).Id);
        Assert.Empty(EntryHours.At(plan, inside with { Fixture = null, Room = null, Stand = StoreScene.Feet(150, 20) }));
    }

    private static Route Plan(Plan plan, string begin, (string From, string To) room)
    {
        plan = plan with { Rooms = [plan.Rooms[0] with { Entry = [(Time(room.From), Time(room.To))] }] };
        var draft = ProbePlanner.Draft(plan, new Protocol());
        return RoutePlanner.Plan(plan, new WalkingPaths(FreeFloor.Build(plan, 0.3), threads: 1), draft, new RouteRequest { Begin = Time(begin), Budget = Quick });
    }

    private static TimeOnly FloorDone(Route route) =>
        route.Points.Where(p => p.Fixture?.StartsWith('C') == true).Max(p => route.Clock!.Read[route.Order.ToList().IndexOf(p.Id)]);

    /// <summary>A store of 200 by 100 ft whose upper left corner is a prep room.</summary>
    private static Plan Store(IReadOnlyList<FloorArea> areas, params Fixture[] fixtures) => StoreScene.Store(fixtures) with
    {
        Areas = areas,
        Rooms = [new("R1", "Prep", RoomKind.Prep, StoreScene.Box(0, 60, 80, 100), [new(StoreScene.Feet(20, 60), StoreScene.Feet(26, 60))], false, 3)],
    };

    private static Fixture Case(string id, double x, double y, double length) => StoreScene.Case(id, FixtureKind.OpenCase, x, y, length);

    private static TimeOnly Time(string text) => TimeOnly.ParseExact(text, "HH:mm", null);
}
