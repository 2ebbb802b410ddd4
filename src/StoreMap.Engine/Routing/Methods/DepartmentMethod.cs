using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>A background point for every room and for each department of the sales floor: line-ups and islands whose stands come near
/// one background place share it.</summary>
internal static class DepartmentMethod
{
    public static void AddTo(DraftBuilder draft)
    {
        var groups = draft.Groups.Where(g => g.Fixtures.Count > 0).ToList();
        foreach (var room in draft.Plan.Rooms) Room(draft, room, [.. groups.Where(g => RoomOf(draft, g)?.Id == room.Id)]);
        SalesFloor(draft, [.. groups.Where(g => RoomOf(draft, g) is null)]);
    }

    private static void Room(DraftBuilder draft, Room room, List<ProbeGroup> groups)
    {
        var id = draft.IdFor("B", room.Id);
        var point = draft.At(id, ProbePass.Background, RingMiddle.Of(room.Outline), new(0, 0), draft.Protocol.BackgroundDwellSeconds);
        draft.AddGroup(id, [point with { Room = room.Id, Note = NoteFor(draft, room) }]);
        draft.AddDepartment(id, [.. groups.Select(g => g.Id)]);
    }

    private static string NoteFor(DraftBuilder draft, Room room)
    {
        var background = $"Background of {room.Name}, away from fixtures.";
        if (!room.Aerosol) return background;
        var turn = draft.Protocol.AerosolRoomsLast ? "Walked last" : "Walk it before the work starts";
        return $"{background} Sprays are used here: a monitor may take them for refrigerant. {turn}; one level everywhere is background, not a leak.";
    }

    private static void SalesFloor(DraftBuilder draft, List<ProbeGroup> groups)
    {
        var departments = new List<(PlanPoint At, List<ProbeGroup> Groups)>();
        var byId = groups.SelectMany(g => g.Points).ToDictionary(id => id, draft.Point);

        // Plug-in units open no department while there is another: they stand among its cases.
        foreach (var group in groups.OrderBy(g => g.Points.All(id => byId[id].Spot == Spot.KickPlate)))
        {
            var stands = group.Points.Select(id => byId[id]).ToList();
            var distances = departments.Select(d => stands.Min(p => draft.Approach(p).DistanceTo(d.At))).ToList();
            var nearest = distances.Count == 0 ? -1 : distances.IndexOf(distances.Min());
            var shared = nearest >= 0 && (distances[nearest] <= draft.Protocol.DepartmentReachMetres || stands.TrueForAll(p => p.Spot == Spot.KickPlate));
            if (shared) departments[nearest].Groups.Add(group);
            else departments.Add((BackgroundPlace.Before(draft.Plan, stands[stands.Count / 2], draft.Protocol), [group]));
        }

        foreach (var (at, served) in departments)
        {
            var first = draft.Plan.FindFixture(served[0].Fixtures[0])!;
            var id = draft.IdFor("B", first.LineUp ?? first.Id);
            var point = draft.At(id, ProbePass.Background, at, new(0, 0), draft.Protocol.BackgroundDwellSeconds);
            draft.AddGroup(id, [point with { Room = null, Note = $"Background before {first.Name ?? first.Product ?? first.Tag}, in the aisle." }]);
            draft.AddDepartment(id, [.. served.Select(g => g.Id)]);
        }
    }

    /// <summary>The room a group is entered from: a walk-in's is that before its door.</summary>
    private static Room? RoomOf(DraftBuilder draft, ProbeGroup group) => draft.RoomBefore(draft.Point(group.Points[0]));
}
