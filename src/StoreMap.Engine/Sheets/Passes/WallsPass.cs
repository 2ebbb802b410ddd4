using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Outer walls, and the walls of rooms broken at their openings.</summary>
internal static class WallsPass
{
    public static void Draw(PlanDrawing d)
    {
        d.Svg.Begin("walls", "walls", d.Words["plan.walls"]);
        foreach (var room in d.Plan.Rooms)
        {
            d.Svg.Begin("room-" + room.Id, "room", room.Name);
            foreach (var (a, b) in WithoutOpenings(room.Outline, room.Openings))
            {
                d.Svg.Line(d.To.Point(a), d.To.Point(b), Paint.Line(SheetStyle.Wide));
                d.Labels.Space.Spare(d.To.Point(a), d.To.Point(b));
            }

            d.Svg.End();
        }

        var outline = d.Points(d.Plan.Outline);
        d.Svg.Polygon(outline, Paint.Line(SheetStyle.Heavy));
        for (var i = 0; i < outline.Count; i++) d.Labels.Space.Spare(outline[i], outline[(i + 1) % outline.Count]);
        d.Svg.End();
    }

    /// <summary>The sides of a ring less the openings that lie on them.</summary>
    internal static IEnumerable<(PlanPoint A, PlanPoint B)> WithoutOpenings(
        IReadOnlyList<PlanPoint> ring, IReadOnlyList<PlanSegment> openings)
    {
        const double OnWall = 0.2;
        for (var i = 0; i < ring.Count; i++)
        {
            var side = new PlanSegment(ring[i], ring[(i + 1) % ring.Count]);
            var direction = side.B - side.A;
            var square = direction.Dot(direction);
            if (square == 0) continue;
            var gaps = openings
                .Where(o => side.Nearest(o.A).DistanceTo(o.A) <= OnWall && side.Nearest(o.B).DistanceTo(o.B) <= OnWall)
                .Select(o => (A: (o.A - side.A).Dot(direction) / square, B: (o.B - side.A).Dot(direction) / square))
                .Select(g => (Low: Math.Clamp(Math.Min(g.A, g.B), 0, 1), High: Math.Clamp(Math.Max(g.A, g.B), 0, 1)))
                .Where(g => g.High > g.Low)
                .OrderBy(g => g.Low);
            var at = 0.0;
            foreach (var (low, high) in gaps)
            {
                if (low > at) yield return (side.A + (direction * at), side.A + (direction * low));
                at = Math.Max(at, high);
            }

            if (at < 1) yield return (side.A + (direction * at), side.B);
        }
    }
}
