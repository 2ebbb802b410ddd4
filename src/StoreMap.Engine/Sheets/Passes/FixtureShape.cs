using StoreMap.Plans;

namespace StoreMap.Sheets;

/// <summary>Geometry of a fixture that drawing needs.</summary>
internal static class FixtureShape
{
    /// <summary>How deep the fixture is behind a place on its front: along the inward direction to the far side of its outline.</summary>
    /// <param name="fixture">A fixture with a front.</param>
    /// <param name="along">Metres along the front.</param>
    public static double DepthAt(Fixture fixture, double along)
    {
        var start = fixture.Front!.PointAt(along);
        var inward = fixture.OutwardAt(along) * -1;
        var deepest = 0.0;
        for (var i = 0; i < fixture.Outline.Count; i++)
        {
            var a = fixture.Outline[i];
            var edge = fixture.Outline[(i + 1) % fixture.Outline.Count] - a;
            var across = inward.Cross(edge);
            if (Math.Abs(across) < 1e-12) continue;
            var depth = (a - start).Cross(edge) / across;
            var place = (a - start).Cross(inward) / across;
            if (place is >= -1e-9 and <= 1 + 1e-9 && depth > deepest) deepest = depth;
        }

        return deepest;
    }

    /// <summary>The middle of the outline's bounding box: where a label looks centred.</summary>
    public static PlanPoint Middle(IReadOnlyList<PlanPoint> ring)
    {
        double left = ring.Min(p => p.X), right = ring.Max(p => p.X), low = ring.Min(p => p.Y), high = ring.Max(p => p.Y);
        return new PlanPoint((left + right) / 2, (low + high) / 2);
    }

    /// <summary>A point inside a simple ring, as far from its sides as a coarse search finds.</summary>
    public static PlanPoint Inside(IReadOnlyList<PlanPoint> ring)
    {
        const int Steps = 12;
        double left = ring.Min(p => p.X), right = ring.Max(p => p.X), low = ring.Min(p => p.Y), high = ring.Max(p => p.Y);
        var best = (Point: Middle(ring), Distance: -1.0);
        for (var i = 1; i < Steps; i++)
        {
            for (var j = 1; j < Steps; j++)
            {
                var p = new PlanPoint(left + ((right - left) * i / Steps), low + ((high - low) * j / Steps));
                if (!Contains(ring, p)) continue;
                var distance = double.PositiveInfinity;
                for (var k = 0; k < ring.Count; k++)
                {
                    distance = Math.Min(distance, new PlanSegment(ring[k], ring[(k + 1) % ring.Count]).Nearest(p).DistanceTo(p));
                }

                if (distance > best.Distance + 1e-9) best = (p, distance);
            }
        }

        return best.Point;
    }

    /// <summary>True when a point lies inside a ring (crossing count).</summary>
    public static bool Contains(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var inside = false;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            if (ring[i].Y > p.Y == ring[j].Y > p.Y) continue;
            if (p.X < ((ring[j].X - ring[i].X) * (p.Y - ring[i].Y) / (ring[j].Y - ring[i].Y)) + ring[i].X) inside = !inside;
        }

        return inside;
    }
}
