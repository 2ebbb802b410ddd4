namespace StoreMap.Plans;

/// <summary>Finds the long edge of an island opposite to its front.</summary>
internal static class IslandBack
{
    // Edges within 30 degrees of the front's course count as long edges, the others as ends and corners.
    private const double Parallel = 0.866;

    /// <summary>The longest unbroken run of edges that faces away from the front, in the same sense as the front.</summary>
    /// <param name="ring">The island's outline, counter-clockwise.</param>
    /// <param name="front">Its front.</param>
    /// <returns>The back; null when no edge runs along the other side, as round a bent front.</returns>
    public static PlanLine? Find(IReadOnlyList<PlanPoint> ring, PlanLine front)
    {
        var course = front.Points[^1] - front.Points[0];
        var length = course.DistanceTo(default);
        if (length == 0) return null;
        var with = FrontSide.StartsLeft(ring, front) ? course : course * -1;

        // On a counter-clockwise ring the far side runs against the front side.
        bool Against(int i) => (ring[(i + 1) % ring.Count] - ring[i % ring.Count]) is var d
            && d.Dot(with) < -Parallel * length * d.DistanceTo(default);
        var start = Enumerable.Range(0, ring.Count).FirstOrDefault(i => !Against(i), -1);
        if (start < 0) return null;

        List<PlanPoint> best = [], run = [];
        for (var k = 1; k <= ring.Count; k++)
        {
            var i = (start + k) % ring.Count;
            if (!Against(i)) run = [];
            else
            {
                if (run.Count == 0) run.Add(ring[i]);
                run.Add(ring[(i + 1) % ring.Count]);
                if (best.Count == 0 || new PlanLine(run).Length > new PlanLine(best).Length) best = [.. run];
            }
        }

        return best.Count < 2 ? null : InSenseOf(front, new PlanLine(best));
    }

    /// <summary>The line, turned round if need be to run in the sense of the front.</summary>
    public static PlanLine InSenseOf(PlanLine front, PlanLine line) =>
        (front.Points[^1] - front.Points[0]).Dot(line.Points[^1] - line.Points[0]) >= 0 ? line : new PlanLine([.. line.Points.Reverse()]);
}
