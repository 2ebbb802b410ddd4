using StoreMap.Plans;

namespace StoreMap.Air;

/// <summary>The store's air as square cells: which air each cell holds, and how far each face between neighbours is open.</summary>
/// <remarks>
/// Cell index = row * <see cref="Columns"/> + column, row 0 lowest. A cell is of one region (open floor, room, the air inside a case,
/// walk-in) or solid. Air passes between neighbours of one region; walls of rooms and walk-ins are closed save at their openings,
/// although they are lines of no thickness; a case is open to the aisle across its front (an island across front and back) and partly
/// to the next case of its line-up. Walls are tested exactly on an integer lattice, so a closed wall never leaks, whatever its
/// direction and wherever it runs between or through cell centres. A centre on a wall belongs to the side right of it or above it.
/// Doorways pass what they pass whatever the cells: faces in one are open by <see cref="DoorwayShare"/>.
/// </remarks>
internal sealed class AirGrid
{
    private readonly Plan plan;
    private readonly GridFrame frame;
    private readonly List<Barrier> barriers;

    private AirGrid(Plan plan, GridFrame frame, RegionRaster raster, AirSettings settings)
    {
        (this.plan, this.frame, Settings) = (plan, frame, settings);
        (Regions, RegionOf) = (raster.Regions, raster.Of);
        (Right, Up) = FaceOpenness.Of(plan, frame, raster, settings);
        barriers = BarrierList.Of(plan, settings);
        (ComponentOf, ComponentCount) = AirComponents.Of(this);
    }

    /// <summary>The settings it was built with.</summary>
    public AirSettings Settings { get; }

    /// <summary>Cells along x.</summary>
    public int Columns => frame.Columns;

    /// <summary>Cells along y.</summary>
    public int Rows => frame.Rows;

    /// <summary>Number of cells, solid ones included.</summary>
    public int Count => frame.Count;

    /// <summary>Side of a cell, metres.</summary>
    public double CellMetres => frame.CellMetres;

    /// <summary>Region 0 is the open floor; then rooms and fixtures in the plan's order, whether or not they have cells.</summary>
    public IReadOnlyList<AirRegion> Regions { get; }

    /// <summary>Index into <see cref="Regions"/> per cell; -1 for solid.</summary>
    public int[] RegionOf { get; }

    /// <summary>Openness of the face to the right neighbour per cell: 0 closed, 1 free, in a doorway what passes as much
    /// air as the doorway does (<see cref="DoorwayShare"/>), there also above 1.</summary>
    public double[] Right { get; }

    /// <summary>Openness of the face to the upper neighbour per cell, likewise.</summary>
    public double[] Up { get; }

    /// <summary>Number of connected bodies of air.</summary>
    public int ComponentCount { get; }

    /// <summary>Connected body of air per cell, numbered from 0 in order of its first cell; -1 for solid.</summary>
    public int[] ComponentOf { get; }

    /// <summary>Rasters a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="cellMetres">Side of a cell, metres, in [0.01, 5].</param>
    /// <param name="settings">How freely air passes; null for the defaults.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cell is outside its range, or more than four million cells are asked for.</exception>
    public static AirGrid Build(Plan plan, double cellMetres, AirSettings? settings = null)
    {
        var frame = GridFrame.Cover(plan.Outline, cellMetres);
        return new AirGrid(plan, frame, RegionRaster.Raster(plan, frame), settings ?? new AirSettings());
    }

    /// <summary>Centre of a cell, metres.</summary>
    public PlanPoint CentreOf(int cell) => frame.CentreOf(cell);

    /// <summary>Region index of a fixture, or -1 when the plan has no such fixture.</summary>
    public int RegionOfFixture(string? id)
    {
        for (var i = 1 + plan.Rooms.Count; i < Regions.Count; i++)
        {
            if (Regions[i].Id == id) return i;
        }

        return -1;
    }

    /// <summary>Cells of a region, ascending.</summary>
    public int[] CellsOf(int region) => [.. Enumerable.Range(0, Count).Where(c => RegionOf[c] == region)];

    /// <summary>Openness of the face between two neighbouring cells; 0 when they are no neighbours.</summary>
    public double Between(int a, int b)
    {
        if (a > b) (a, b) = (b, a);
        if (b == a + Columns) return Up[a];
        return b == a + 1 && b % Columns != 0 ? Right[a] : 0;
    }

    /// <summary>The cell that holds the air at a place.</summary>
    /// <param name="p">Plan point.</param>
    /// <param name="fixture">The case or walk-in whose own air is meant; null for the air of floor or room. A case's front lies on the
    /// edge of its air, so the nearest cell of the case counts.</param>
    /// <param name="room">Room id, to decide for a point on a wall; may be null.</param>
    /// <returns>The nearest cell to which no wall bars the way; -1 when there is none within a metre (solid, or outside the store).</returns>
    public int CellAt(PlanPoint p, string? fixture = null, string? room = null)
    {
        var region = RegionOfFixture(fixture);
        if (region >= 0)
        {
            var own = NearestCell(p, 3, c => RegionOf[c] == region);
            if (own >= 0) return own;
        }

        bool IsFloor(int c) => RegionOf[c] >= 0 && Regions[RegionOf[c]].Kind != AirRegionKind.Case && !Barred(p, CentreOf(c));
        var named = room is null ? -1 : NearestCell(p, 1, c => RegionOf[c] > 0 && Regions[RegionOf[c]].Id == room && IsFloor(c));
        return named >= 0 ? named : NearestCell(p, 1, IsFloor);
    }

    /// <summary>True when two fixtures stand in one line-up; walk-ins do not.</summary>
    public static bool SameLineUp(Fixture a, Fixture b) =>
        a.LineUp is not null && a.LineUp == b.LineUp && a.Kind != FixtureKind.WalkIn && b.Kind != FixtureKind.WalkIn;

    // Rings of cells outwards from the point's own, until a ring can hold nothing nearer; ties go to the lower index.
    private int NearestCell(PlanPoint p, double reachMetres, Func<int, bool> wanted)
    {
        var reach = (int)Math.Ceiling(reachMetres / CellMetres) + 1;
        var origin = CentreOf(0);
        var (column, row) = ((int)Math.Round((p.X - origin.X) / CellMetres), (int)Math.Round((p.Y - origin.Y) / CellMetres));
        var (best, bestDistance) = (-1, reachMetres);
        for (var ring = 0; ring <= reach && (ring - 1) * CellMetres <= bestDistance; ring++)
        {
            for (var r = Math.Max(0, row - ring); r <= Math.Min(Rows - 1, row + ring); r++)
            {
                var step = Math.Abs(r - row) == ring ? 1 : 2 * ring;
                for (var c = column - ring; c <= column + ring; c += step)
                {
                    if (c < 0 || c >= Columns) continue;
                    var cell = (r * Columns) + c;
                    var distance = Math.Round(CentreOf(cell).DistanceTo(p), 9);
                    if (distance > bestDistance || (distance == bestDistance && best >= 0 && cell > best) || !wanted(cell)) continue;
                    (best, bestDistance) = (cell, distance);
                }
            }
        }

        return best;
    }

    // True when a closed piece of a wall, or any part of an obstacle's or case's edge, lies strictly across the way.
    private bool Barred(PlanPoint from, PlanPoint to)
    {
        var (a, b) = (PlanLattice.Snap(from), PlanLattice.Snap(to));
        foreach (var barrier in barriers)
        {
            if (barrier.Kind == BarrierKind.Section || !Crosses(a, b, barrier.A, barrier.B, out var along)) continue;
            if (barrier.Kind == BarrierKind.Case || !barrier.Gaps.Any(g => along >= g.From && along <= g.To)) return true;
        }

        return false;
    }

    private static bool Crosses(LatticePoint a, LatticePoint b, LatticePoint c, LatticePoint d, out double along)
    {
        var (s, t) = (Side(a, b, c), Side(a, b, d));
        along = 0;
        if (Int128.Sign(s) * Int128.Sign(t) >= 0 || Int128.Sign(Side(c, d, a)) * Int128.Sign(Side(c, d, b)) >= 0) return false;
        along = (double)s / (double)(s - t);
        return true;
    }

    private static Int128 Side(LatticePoint a, LatticePoint b, LatticePoint p) =>
        ((Int128)(b.X - a.X) * (p.Y - a.Y)) - ((Int128)(b.Y - a.Y) * (p.X - a.X));
}
