namespace StoreMap.Plans;

/// <summary>Fronts that nobody can stand at, doors no one could open, drops far from what they feed: as a rule the wrong edge or a slip.</summary>
internal static class FrontRules
{
    // Half a step: nearer than anybody stands, so that even a tight aisle passes.
    private const double Step = 0.25;
    private const int Places = 5;
    private const double NarrowDoor = 0.35, WideDoor = 1.5;
    private const double FarDrop = 3;
    private const string Outside = "the outside of the store";

    /// <summary>Checks every front and every drop.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        foreach (var fixture in plan.Fixtures.Where(f => f.Front is not null))
        {
            CheckAisle(plan, fixture, problems);
            if (fixture.Doors > 0) CheckDoors(plan, fixture, problems);
        }

        var byId = plan.Fixtures.GroupBy(f => f.Id).ToDictionary(g => g.Key, g => g.First());
        foreach (var drop in plan.Drops) CheckDrop(plan, drop, byId, problems);
    }

    private static void CheckAisle(Plan plan, Fixture fixture, ProblemList problems)
    {
        var places = Enumerable.Range(0, Places).Select(i => fixture.Front!.Length * (i + 0.5) / Places).Select(a => fixture.Front!.PointAt(a) + (fixture.OutwardAt(a) * Step)).ToList();
        var blocked = places.Select(p => Blocker(plan, fixture, p)).ToList();
        if (blocked[0] is not var (id, words) || blocked.Exists(b => b is null)) return;
        problems.Warn(fixture.Id, "front", id, "front-blocked", $"Nobody can stand at the front: {words} is there. Is it the wrong edge? Name the edge that is probed.");
    }

    // Its id, and what people call it.
    private static (string Id, string Words)? Blocker(Plan plan, Fixture fixture, PlanPoint p)
    {
        if (!Rings.Contains(plan.Outline, p)) return (Outside, Outside);
        if (plan.Fixtures.FirstOrDefault(f => f != fixture && f.Kind != FixtureKind.WalkIn && Rings.Contains(f.Outline, p)) is { } other) return (other.Id, other.Tag);
        return plan.Obstacles.FirstOrDefault(o => Rings.Contains(o.Outline, p)) is { } obstacle ? (obstacle.Id, obstacle.Id) : null;
    }

    private static void CheckDoors(Plan plan, Fixture fixture, ProblemList problems)
    {
        var width = fixture.Front!.Length / fixture.Doors;
        if (width is >= NarrowDoor and <= WideDoor) return;
        problems.Warn(fixture.Id, "doors", Say.Number(fixture.Doors), "door-width", $"With {fixture.Doors} doors on {Say.Length(fixture.Front.Length, plan.Units)} each is {Say.Length(width, plan.Units)} wide; usual are 24 and 30 in. Check the number of doors.");
    }

    private static void CheckDrop(Plan plan, Drop drop, Dictionary<string, Fixture> byId, ProblemList problems)
    {
        if (drop.Fixtures.Count == 0)
        {
            problems.Warn(drop.Id, "fixtures", null, "drop-alone", "The drop names no fixture and stands near none; say which it feeds.");
            return;
        }

        // A line-up is fed from one end: the nearest of the fixtures named counts.
        var nearest = drop.Fixtures.Select(id => byId.GetValueOrDefault(id)).OfType<Fixture>().MinBy(f => Distance(f, drop.At));
        if (nearest is null || Distance(nearest, drop.At) <= FarDrop) return;
        problems.Warn(drop.Id, "at", nearest.Id, "drop-far", $"The drop stands {Say.Length(Distance(nearest, drop.At), plan.Units)} from {nearest.Tag}, the nearest fixture that it feeds; check its place or its fixtures.");
    }

    private static double Distance(Fixture fixture, PlanPoint p) => Rings.Contains(fixture.Outline, p) ? 0 : Rings.DistanceToEdge(fixture.Outline, p);
}
