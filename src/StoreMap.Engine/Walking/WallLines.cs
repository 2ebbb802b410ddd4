using StoreMap.Plans;

namespace StoreMap.Walking;

/// <summary>The wall lines that remain of a ring when its doorways are cut out.</summary>
internal static class WallLines
{
    /// <summary>An opening this near to a wall line lies on it, metres (6 in, as plans allow).</summary>
    private const double OnWallMetres = 0.1524;

    /// <summary>Cuts the openings out of a ring.</summary>
    /// <param name="ring">Ring, metres, first point not repeated.</param>
    /// <param name="openings">Doorways; those that lie elsewhere are ignored.</param>
    /// <returns>Lines in ring order; the whole closed ring as one line when nothing is cut.</returns>
    public static List<IReadOnlyList<PlanPoint>> Of(IReadOnlyList<PlanPoint> ring, IReadOnlyList<PlanSegment> openings)
    {
        var pieces = new List<PlanSegment>();
        for (var i = 0; i < ring.Count; i++) pieces.AddRange(Cut(new PlanSegment(ring[i], ring[(i + 1) % ring.Count]), openings));
        return Join(pieces);
    }

    private static IEnumerable<PlanSegment> Cut(PlanSegment edge, IReadOnlyList<PlanSegment> openings)
    {
        var length = edge.Length;
        if (length == 0) yield break;
        var direction = (edge.B - edge.A) * (1 / length);
        var gaps = new List<(double From, double To)>();
        foreach (var opening in openings)
        {
            var a = opening.A - edge.A;
            var b = opening.B - edge.A;
            if (Math.Abs(direction.Cross(a)) > OnWallMetres || Math.Abs(direction.Cross(b)) > OnWallMetres) continue;
            var (from, to) = (Math.Min(direction.Dot(a), direction.Dot(b)), Math.Max(direction.Dot(a), direction.Dot(b)));

            // An opening whose run along the edge is short against its width stands across it, at a corner.
            if (to - from < opening.Length / 2) continue;
            gaps.Add((from, to));
        }

        gaps.Sort();
        var at = 0.0;
        foreach (var (from, to) in gaps)
        {
            if (from > at && at < length) yield return new PlanSegment(edge.A + (direction * at), Along(Math.Min(from, length)));
            at = Math.Max(at, to);
        }

        if (at < length) yield return new PlanSegment(Along(at), edge.B);

        PlanPoint Along(double s) => s <= 0 ? edge.A : s >= length ? edge.B : edge.A + (direction * s);
    }

    private static List<IReadOnlyList<PlanPoint>> Join(List<PlanSegment> pieces)
    {
        var lines = new List<List<PlanPoint>>();
        foreach (var piece in pieces)
        {
            if (lines.Count > 0 && lines[^1][^1] == piece.A) lines[^1].Add(piece.B);
            else lines.Add([piece.A, piece.B]);
        }

        // The ring's first corner joins the last line to the first.
        if (lines.Count > 1 && lines[^1][^1] == lines[0][0])
        {
            lines[^1].AddRange(lines[0].Skip(1));
            lines.RemoveAt(0);
        }

        return [.. lines];
    }
}
