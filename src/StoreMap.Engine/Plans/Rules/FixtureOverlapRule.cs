namespace StoreMap.Plans;

/// <summary>Fixtures may share edges, not area: an overlap of up to 6 in is a warning, a deeper one an error.</summary>
internal static class FixtureOverlapRule
{
    private const long Corners = 5_000_000;

    /// <summary>Checks every pair of fixtures whose boxes meet.</summary>
    public static void Check(Plan plan, ProblemList problems)
    {
        var budget = new PairBudget(Corners);
        var boxes = plan.Fixtures.Select(f => Rings.Box(f.Outline)).ToList();
        var shapes = plan.Fixtures.Select(f => PlanShapes.Polygon(f.Outline)).ToList();
        for (var i = 0; i < shapes.Count; i++)
        {
            for (var j = i + 1; j < shapes.Count; j++)
            {
                if (problems.Full) return;
                if (!Overlap.BoxesMeet(boxes[i], boxes[j])) continue;
                if (!budget.Spend(plan.Fixtures[i].Outline, plan.Fixtures[j].Outline, problems)) return;
                var shared = PlanShapes.Intersection(shapes[i], shapes[j]);
                if (!Overlap.IsDeeperThan(shared, LayoutLimits.Rounding)) continue;
                Tell(plan, plan.Fixtures[i], plan.Fixtures[j], Overlap.IsDeeperThan(shared, LayoutLimits.Slack), PlanShapes.Point(shared.InteriorPoint.Coordinate), problems);
            }
        }
    }

    private static void Tell(Plan plan, Fixture a, Fixture b, bool deep, PlanPoint at, ProblemList problems)
    {
        var place = Say.Place(at, plan.Units);
        if (deep) problems.Error(b.Id, "outline", a.Id, "no-overlap", $"The fixture overlaps {a.Tag} by more than {Say.Length(LayoutLimits.Slack, plan.Units)}, as at {place}; fixtures may share edges, not area. Move one of them.");
        else problems.Warn(b.Id, "outline", a.Id, "no-overlap", $"The fixture overlaps {a.Tag} a little, at {place}; both are used as drawn.");
    }
}
