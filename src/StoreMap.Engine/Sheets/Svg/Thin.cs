namespace StoreMap.Sheets;

/// <summary>Leaves out points of a line that the eye can't miss (Douglas and Peucker 1973).</summary>
internal static class Thin
{
    /// <summary>An open line with fewer points, nowhere farther than the tolerance from the old one; its ends stay.</summary>
    public static IReadOnlyList<SheetPoint> Line(IReadOnlyList<SheetPoint> points, double tolerance)
    {
        if (points.Count < 3) return points;
        var keep = new bool[points.Count];
        keep[0] = keep[^1] = true;
        var spans = new Stack<(int From, int To)>([(0, points.Count - 1)]);
        while (spans.TryPop(out var span))
        {
            var (far, distance) = (-1, tolerance);
            for (var i = span.From + 1; i < span.To; i++)
            {
                var away = DistanceToSegment(points[i], points[span.From], points[span.To]);
                if (away > distance) (far, distance) = (i, away);
            }

            if (far < 0) continue;
            keep[far] = true;
            spans.Push((span.From, far));
            spans.Push((far, span.To));
        }

        return [.. points.Where((_, i) => keep[i])];
    }

    /// <summary>A ring, its first point not repeated.</summary>
    public static IReadOnlyList<SheetPoint> Ring(IReadOnlyList<SheetPoint> ring, double tolerance)
    {
        if (ring.Count < 5) return ring;
        var far = 0;
        for (var i = 1; i < ring.Count; i++)
        {
            if (ring[i].DistanceTo(ring[0]) > ring[far].DistanceTo(ring[0])) far = i;
        }

        var first = Line([.. ring.Take(far + 1)], tolerance);
        var second = Line([.. ring.Skip(far), ring[0]], tolerance);
        return [.. first.Take(first.Count - 1), .. second.Take(second.Count - 1)];
    }

    private static double DistanceToSegment(SheetPoint p, SheetPoint a, SheetPoint b)
    {
        var d = b - a;
        var square = (d.X * d.X) + (d.Y * d.Y);
        if (square == 0) return p.DistanceTo(a);
        var t = Math.Clamp((((p.X - a.X) * d.X) + ((p.Y - a.Y) * d.Y)) / square, 0, 1);
        return p.DistanceTo(a + (d * t));
    }
}
