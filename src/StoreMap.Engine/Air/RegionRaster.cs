using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>Says of each cell which air it holds, by its centre: a case before an obstacle, an obstacle before a walk-in, a walk-in
/// before a room (the smallest that holds it), a room before the open floor; outside the store is solid.</summary>
internal sealed class RegionRaster
{
    /// <summary>Region index of solid cells.</summary>
    public const int Solid = -1;

    // Real line-ups have end panels of up to 6 inches between cases; such a gap is case air, not aisle.
    private const double LargestEndPanel = 0.16;

    private RegionRaster(AirRegion[] regions, int[] of, bool[] filled) => (Regions, Of, EndPanel) = (regions, of, filled);

    /// <summary>The open floor, then the rooms, then the fixtures, each in the plan's order.</summary>
    public AirRegion[] Regions { get; }

    /// <summary>Region index per cell; <see cref="Solid"/> where there is no air.</summary>
    public int[] Of { get; }

    /// <summary>True for cells between two cases of a line-up that were given to the nearer case.</summary>
    public bool[] EndPanel { get; }

    /// <summary>Rasters a plan.</summary>
    public static RegionRaster Raster(Plan plan, GridFrame frame)
    {
        var regions = new List<AirRegion> { new(AirRegionKind.Floor, null, -1) };
        regions.AddRange(plan.Rooms.Select((r, i) => new AirRegion(AirRegionKind.Room, r.Id, i)));
        regions.AddRange(plan.Fixtures.Select((f, i) =>
            new AirRegion(f.Kind == FixtureKind.WalkIn ? AirRegionKind.WalkIn : AirRegionKind.Case, f.Id, i)));
        var of = new int[frame.Count];
        Array.Fill(of, Solid);
        Paint(frame, plan.Outline, of, 0);
        var rooms = Enumerable.Range(0, plan.Rooms.Count).OrderByDescending(i => Area(plan.Rooms[i].Outline)).ThenByDescending(i => i);
        foreach (var i in rooms) Paint(frame, plan.Rooms[i].Outline, of, 1 + i);
        var firstFixture = 1 + plan.Rooms.Count;
        for (var i = plan.Fixtures.Count - 1; i >= 0; i--)
        {
            if (plan.Fixtures[i].Kind == FixtureKind.WalkIn) Paint(frame, plan.Fixtures[i].Outline, of, firstFixture + i);
        }

        foreach (var obstacle in plan.Obstacles) Paint(frame, obstacle.Outline, of, Solid);
        for (var i = plan.Fixtures.Count - 1; i >= 0; i--)
        {
            if (plan.Fixtures[i].Kind != FixtureKind.WalkIn) Paint(frame, plan.Fixtures[i].Outline, of, firstFixture + i);
        }

        var filled = new bool[frame.Count];
        FillEndPanels(plan, frame, of, firstFixture, filled);
        return new RegionRaster([.. regions], of, filled);
    }

    /// <summary>True when a ring holds a point (a point on the ring belongs to the side right and above it).</summary>
    public static bool Holds(IReadOnlyList<PlanPoint> ring, PlanPoint point)
    {
        var p = PlanLattice.Snap(point);
        var inside = false;
        for (var i = 0; i < ring.Count; i++)
        {
            var (a, b) = (PlanLattice.Snap(ring[i]), PlanLattice.Snap(ring[(i + 1) % ring.Count]));
            if (a.Y > p.Y == b.Y > p.Y) continue;
            var side = ((Int128)(b.X - a.X) * (p.Y - a.Y)) - ((Int128)(b.Y - a.Y) * (p.X - a.X));
            if (b.Y > a.Y ? side <= 0 : side >= 0) inside = !inside;
        }

        return inside;
    }

    private static void Paint(GridFrame frame, IReadOnlyList<PlanPoint> ring, int[] of, int region)
    {
        var odd = new bool[frame.Count];
        for (var i = 0; i < ring.Count; i++)
        {
            LatticeCrossing.Rows(frame, PlanLattice.Snap(ring[i]), PlanLattice.Snap(ring[(i + 1) % ring.Count]), (row, column) =>
            {
                if (column < frame.Columns) odd[(row * frame.Columns) + column] ^= true;
            });
        }

        for (var row = 0; row < frame.Rows; row++)
        {
            var inside = false;
            for (var cell = row * frame.Columns; cell < (row + 1) * frame.Columns; cell++)
            {
                inside ^= odd[cell];
                if (inside) of[cell] = region;
            }
        }
    }

    private static void FillEndPanels(Plan plan, GridFrame frame, int[] of, int firstFixture, bool[] filled)
    {
        for (var i = 0; i < plan.Fixtures.Count; i++)
        {
            for (var j = i + 1; j < plan.Fixtures.Count; j++)
            {
                if (AirGrid.SameLineUp(plan.Fixtures[i], plan.Fixtures[j])) FillBetween(plan, frame, of, firstFixture, i, j, filled);
            }
        }
    }

    private static void FillBetween(Plan plan, GridFrame frame, int[] of, int firstFixture, int i, int j, bool[] filled)
    {
        var (first, second) = (plan.Fixtures[i].Outline, plan.Fixtures[j].Outline);
        var (a, b) = (Bounds(first), Bounds(second));
        var (rowFirst, rowEnd) = frame.RowsBetween(
            PlanLattice.Snap(Math.Max(a.MinY, b.MinY) - LargestEndPanel), PlanLattice.Snap(Math.Min(a.MaxY, b.MaxY) + LargestEndPanel));
        var (columnFirst, columnEnd) = frame.ColumnsBetween(
            PlanLattice.Snap(Math.Max(a.MinX, b.MinX) - LargestEndPanel), PlanLattice.Snap(Math.Min(a.MaxX, b.MaxX) + LargestEndPanel));
        for (var row = rowFirst; row < rowEnd; row++)
        {
            for (var column = columnFirst; column < columnEnd; column++)
            {
                var cell = (row * frame.Columns) + column;
                if (of[cell] == Solid || of[cell] >= firstFixture) continue;
                var centre = frame.CentreOf(cell);
                var (toFirst, toSecond) = (Nearest(first, centre) - centre, Nearest(second, centre) - centre);
                var (s, t) = (Math.Sqrt(toFirst.Dot(toFirst)), Math.Sqrt(toSecond.Dot(toSecond)));
                // Between the two, not merely in front of where they meet: they lie in opposite directions.
                if (s + t > LargestEndPanel || toFirst.Dot(toSecond) > -0.7 * s * t) continue;
                of[cell] = firstFixture + (s <= t ? i : j);
                filled[cell] = true;
            }
        }
    }

    private static PlanPoint Nearest(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var best = ring[0];
        for (var i = 0; i < ring.Count; i++)
        {
            var q = new PlanSegment(ring[i], ring[(i + 1) % ring.Count]).Nearest(p);
            if (q.DistanceTo(p) < best.DistanceTo(p)) best = q;
        }

        return best;
    }

    private static (double MinX, double MinY, double MaxX, double MaxY) Bounds(IReadOnlyList<PlanPoint> ring) =>
        (ring.Min(p => p.X), ring.Min(p => p.Y), ring.Max(p => p.X), ring.Max(p => p.Y));

    private static double Area(IReadOnlyList<PlanPoint> ring)
    {
        var twice = 0.0;
        for (var i = 0; i < ring.Count; i++) twice += (ring[i] - ring[0]).Cross(ring[(i + 1) % ring.Count] - ring[0]);
        return Math.Abs(twice) / 2;
    }
}
