namespace StoreMap.Plans;

/// <summary>Tells which end of a front is the left one, facing the case.</summary>
internal static class FrontSide
{
    /// <summary>True when the front's first point is its left end, facing the case.</summary>
    /// <param name="ring">The fixture's outline, counter-clockwise: its inside lies to the left of every edge.</param>
    /// <param name="front">A line along the outline.</param>
    /// <remarks>One who faces the case and walks to the right has it on the left hand; so the front starts left when it
    /// runs the same way as the counter-clockwise edge it lies on. The middle of its longest piece is compared, where no corner is near.</remarks>
    public static bool StartsLeft(IReadOnlyList<PlanPoint> ring, PlanLine front)
    {
        var piece = Enumerable.Range(0, front.Points.Count - 1)
            .Select(i => new PlanSegment(front.Points[i], front.Points[i + 1])).MaxBy(s => s.Length);
        var direction = piece.B - piece.A;
        PlanSegment best = default;
        var bestDistance = double.PositiveInfinity;
        foreach (var edge in Rings.Edges(ring))
        {
            var along = Math.Abs(direction.Dot(edge.B - edge.A)) / (piece.Length * edge.Length);
            var distance = edge.Nearest(piece.Middle).DistanceTo(piece.Middle);
            // Of edges that are near only those that run along with the piece count.
            if (along > 0.5 && distance < bestDistance) (best, bestDistance) = (edge, distance);
        }

        return direction.Dot(best.B - best.A) >= 0;
    }
}
