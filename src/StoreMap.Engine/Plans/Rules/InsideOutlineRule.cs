using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;

namespace StoreMap.Plans;

/// <summary>Everything that people walk round or into lies inside the store's outline; a wall's thickness over is a warning.</summary>
internal static class InsideOutlineRule
{
    /// <summary>Checks entrances, rooms, areas, fixtures, obstacles, drops and pits.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        var store = new PreparedPolygon(PlanShapes.Polygon(plan.Outline));
        foreach (var room in plan.Rooms) CheckRing(plan, store, room.Id, "room", room.Outline, true, problems);
        foreach (var fixture in plan.Fixtures) CheckRing(plan, store, fixture.Id, "fixture", fixture.Outline, true, problems);
        foreach (var pit in plan.Pits) CheckRing(plan, store, pit.Id, "pit", pit.Outline, false, problems);
        foreach (var area in plan.Areas) CheckRing(plan, store, area.Id, "area", area.Outline, false, problems);
        foreach (var obstacle in plan.Obstacles)
        {
            if (store.Disjoint(PlanShapes.Polygon(obstacle.Outline)))
            {
                problems.Warn(obstacle.Id, "outline", null, "inside-outline", "The obstacle lies outside the store, where it blocks nothing; check its points.");
            }
        }

        foreach (var entrance in plan.Entrances) CheckEntrance(plan, entrance, problems);
        foreach (var drop in plan.Drops)
        {
            if (!Rings.Covers(plan.Outline, drop.At, LayoutLimits.Slack))
            {
                problems.Warn(drop.Id, "at", Say.Place(drop.At, plan.Units), "inside-outline", "The drop lies outside the store; check its place.");
            }
        }
    }

    private static void CheckRing(Plan plan, PreparedPolygon store, string id, string what, IReadOnlyList<PlanPoint> ring, bool matters, ProblemList problems)
    {
        var shape = PlanShapes.Polygon(ring);
        if (store.Covers(shape)) return;
        var over = PlanShapes.Difference(shape, store.Geometry);
        if (!Overlap.IsDeeperThan(over, LayoutLimits.Rounding)) return;
        var farthest = ring.Where(p => !Rings.Contains(plan.Outline, p)).Select(p => (PlanPoint?)p).MaxBy(p => Rings.DistanceToEdge(plan.Outline, p!.Value));
        var place = farthest is { } f ? Say.Place(f, plan.Units) : null;
        if (matters && Overlap.IsDeeperThan(over, LayoutLimits.Slack))
        {
            problems.Error(id, "outline", place, "inside-outline",
                $"The {what} lies {(store.Disjoint(shape) ? "" : "partly ")}outside the store's outline{(place is null ? "" : ", as at " + place)}. Move it inside, or correct the store's outline.");
        }
        else
        {
            problems.Warn(id, "outline", place, "inside-outline", $"The {what} stands out over the store's outline; the part outside is left as it is.");
        }
    }

    private static void CheckEntrance(Plan plan, Entrance entrance, ProblemList problems)
    {
        var off = Rings.DistanceToEdge(plan.Outline, entrance.At);
        var value = Say.Place(entrance.At, plan.Units);
        if (!Rings.Contains(plan.Outline, entrance.At) && off > LayoutLimits.Slack + LayoutLimits.Tiny)
        {
            problems.Error(entrance.Id, "at", value, "entrance-on-outline", $"The entrance lies {Say.Length(off, plan.Units)} outside the store's outline; put it on the outer wall.");
        }
        else if (off > LayoutLimits.Slack + LayoutLimits.Tiny)
        {
            problems.Warn(entrance.Id, "at", value, "entrance-on-outline", $"The entrance lies {Say.Length(off, plan.Units)} inside the store and not in its outer wall; it is used as the place where the walk begins.");
        }
    }
}
