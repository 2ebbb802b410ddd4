namespace StoreMap.Sheets;

/// <summary>Leaves out points of a line that the eye can't miss (Douglas and Peucker 1973).</summary>
internal static class Thin
{
    /// <summary>An open line with fewer points, nowhere farther than the tolerance from the old one; its ends stay.</summary>
    public static IReadOnlyList<SheetPoint> Line(IReadOnlyList<SheetPoint> points, double tolerance)
    {
        if (points.Count < 3) return points;
        SheetPoint[] line = [.. points];
        return Kept(line, Marked(line, tolerance, line.Length - 1), line.Length);
    }

    /// <summary>A ring, its first point not repeated.</summary>
    public static IReadOnlyList<SheetPoint> Ring(IReadOnlyList<SheetPoint> ring, double tolerance)
    {
        if (ring.Count < 5) return ring;
        SheetPoint[] closed = [.. ring, ring[0]];
        var far = 0;
        for (var i = 1; i < ring.Count; i++)
        {
            if (closed[i].DistanceTo(closed[0]) > closed[far].DistanceTo(closed[0])) far = i;
        }

        return Kept(closed, Marked(closed, tolerance, far), ring.Count);
    }

    private static List<SheetPoint> Kept(SheetPoint[] points, bool[] keep, int count)
    {
        var kept = new List<SheetPoint>();
        for (var i = 0; i < count; i++)
        {
            if (keep[i]) kept.Add(points[i]);
        }

        return kept;
    }

    // The ends and one point between them stay, and of each span what is farthest from its chord. Plain numbers and squares: a browser's
    // interpreter pays for every call, and a map has ten thousands of points.
    private static bool[] Marked(SheetPoint[] points, double tolerance, int between)
    {
        var keep = new bool[points.Length];
        keep[0] = keep[between] = keep[^1] = true;
        var spans = new Stack<(int From, int To)>([(0, between), (between, points.Length - 1)]);
        while (spans.TryPop(out var span))
        {
            double x = points[span.From].X, y = points[span.From].Y, dx = points[span.To].X - x, dy = points[span.To].Y - y;
            var square = (dx * dx) + (dy * dy);
            var (far, most) = (-1, tolerance * tolerance);
            for (var i = span.From + 1; i < span.To; i++)
            {
                double px = points[i].X - x, py = points[i].Y - y;
                if (square > 0)
                {
                    var t = Math.Clamp(((px * dx) + (py * dy)) / square, 0, 1);
                    px -= t * dx;
                    py -= t * dy;
                }

                var away = (px * px) + (py * py);
                if (away > most) (far, most) = (i, away);
            }

            if (far < 0) continue;
            keep[far] = true;
            spans.Push((span.From, far));
            spans.Push((far, span.To));
        }

        return keep;
    }
}
