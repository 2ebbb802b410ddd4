using NetTopologySuite.Geometries;
using StoreMap.Plans;

namespace StoreMap.Walking;

/// <summary>One connected piece of free floor.</summary>
/// <param name="Shell">Counter-clockwise ring, metres, first point not repeated.</param>
/// <param name="Holes">Clockwise rings.</param>
/// <param name="Area">Square metres.</param>
public sealed record FloorRegion(IReadOnlyList<PlanPoint> Shell, IReadOnlyList<IReadOnlyList<PlanPoint>> Holes, double Area);

/// <summary>Where feet stand for a point asked for.</summary>
/// <param name="At">The place, plan metres: the point itself when it is on the free floor.</param>
/// <param name="Moved">Metres from the point asked for; 0 when it is on the free floor.</param>
/// <param name="Region">Index in <see cref="FreeFloor.Regions"/>; places in different regions can't be reached from one another.</param>
public readonly record struct Standing(PlanPoint At, double Moved, int Region);

/// <summary>Where a person can walk: the inside of the outline less walls, fixtures and obstacles, with a clearance kept from all of
/// them. Immutable; safe to share between threads.</summary>
/// <remarks>A closed set: with clearance 0 walls and edges may be touched. The union of what blocks counts: an edge or a corner shared
/// by two blocks is no passage. The offset is mitred with limit 2. Corners lie on a lattice of 0.01 µm and everything else is exact on
/// the polygon they make; wall lines without thickness count as 0.2 µm thick. See docs/walking.md.</remarks>
public sealed class FreeFloor
{
    private readonly Lazy<IReadOnlyList<FloorRegion>> regions;

    private FreeFloor(List<Polygon> polygons, double clearanceMetres)
    {
        ClearanceMetres = clearanceMetres;
        Boundary = FloorBoundary.Of(polygons);
        Grid = new EdgeGrid(Boundary);
        var areas = polygons.Select(p => p.Area / Lattice.PerMetre / Lattice.PerMetre).ToArray();
        Area = areas.Sum();
        Places = new PlaceFinder(Boundary, areas);
        regions = new(() => [.. polygons.Select((p, i) => RegionOf(p, areas[i]))]);
    }

    /// <summary>Distance kept from everything that blocks, metres.</summary>
    public double ClearanceMetres { get; }

    /// <summary>All free floor, square metres.</summary>
    public double Area { get; }

    /// <summary>The connected pieces, largest first; empty when the clearance leaves no floor.</summary>
    public IReadOnlyList<FloorRegion> Regions => regions.Value;

    internal FloorBoundary Boundary { get; }

    internal EdgeGrid Grid { get; }

    internal PlaceFinder Places { get; }

    /// <summary>The free floor of a store.</summary>
    /// <param name="plan">The store. Room outlines are walls except at openings; a walk-in's outline is wall except at its opening and
    /// its inside is floor; other fixtures and obstacles can't be entered. An opening of any room or walk-in opens every wall line
    /// that runs along it, so a doorway between two rooms need be given once.</param>
    /// <param name="clearanceMetres">Distance kept from everything that blocks, metres, in [0, 5].</param>
    /// <exception cref="ArgumentOutOfRangeException">The clearance is outside its range, or a coordinate is not finite or too far.</exception>
    /// <exception cref="RefusedInputException">A ring crosses itself.</exception>
    public static FreeFloor Build(Plan plan, double clearanceMetres)
    {
        Check(clearanceMetres);
        var walkIns = plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn).ToList();
        var openings = plan.Rooms.SelectMany(r => r.Openings).Concat(walkIns.Select(f => f.Opening).OfType<PlanSegment>()).ToList();
        var walled = plan.Rooms.Select(r => r.Outline).Concat(walkIns.Select(f => f.Outline));
        var blocks = plan.Obstacles.Select(o => o.Outline)
            .Concat(plan.Fixtures.Where(f => f.Kind != FixtureKind.WalkIn).Select(f => f.Outline));
        return new(FloorGeometry.Build(plan.Outline, blocks, walled.SelectMany(ring => WallLines.Of(ring, openings)), clearanceMetres), clearanceMetres);
    }

    /// <summary>The free floor of bare rings.</summary>
    /// <param name="outline">Ring of the outer walls, metres, either sense, first point not repeated.</param>
    /// <param name="obstacles">Rings that can't be entered; they may touch and overlap one another and the outline.</param>
    /// <param name="clearanceMetres">Distance kept from everything that blocks, metres, in [0, 5].</param>
    /// <exception cref="ArgumentOutOfRangeException">The clearance is outside its range, or a coordinate is not finite or too far.</exception>
    /// <exception cref="RefusedInputException">A ring crosses itself.</exception>
    public static FreeFloor Build(
        IReadOnlyList<PlanPoint> outline, IReadOnlyList<IReadOnlyList<PlanPoint>> obstacles, double clearanceMetres)
    {
        Check(clearanceMetres);
        return new(FloorGeometry.Build(outline, obstacles, [], clearanceMetres), clearanceMetres);
    }

    /// <summary>True when a person can stand at the point, its edge included.</summary>
    public bool Contains(PlanPoint point) => PlaceOf(point) is not null;

    /// <summary>Where feet stand for a point: the point itself, or the nearest free place.</summary>
    /// <returns>The place; null when there is no free floor at all.</returns>
    public Standing? Stand(PlanPoint point) => StandAt(point)?.Standing;

    internal (Place Place, Standing Standing)? StandAt(PlanPoint point)
    {
        if (PlaceOf(point) is { } here) return (here, new Standing(point, 0, here.Region));
        if (Boundary.EdgeCount == 0) return null;
        var nearest = Places.Nearest(Lattice.FromMetres(point.X), Lattice.FromMetres(point.Y));
        var at = new PlanPoint(Lattice.ToMetres(nearest.X), Lattice.ToMetres(nearest.Y));
        return (nearest, new Standing(at, at.DistanceTo(point), nearest.Region));
    }

    private Place? PlaceOf(PlanPoint point)
    {
        if (!double.IsFinite(point.X) || !double.IsFinite(point.Y))
        {
            throw new ArgumentOutOfRangeException(nameof(point), point, "A point must have finite coordinates.");
        }

        return Math.Max(Math.Abs(point.X), Math.Abs(point.Y)) > Lattice.ReachMetres
            ? null : Places.At(Lattice.FromMetres(point.X), Lattice.FromMetres(point.Y));
    }

    private static void Check(double clearanceMetres)
    {
        if (!(clearanceMetres is >= 0 and <= 5))
        {
            throw new ArgumentOutOfRangeException(nameof(clearanceMetres), clearanceMetres, "The clearance must lie between 0 and 5 m.");
        }
    }

    private static FloorRegion RegionOf(Polygon polygon, double area) =>
        new(Ring(polygon.ExteriorRing, true), [.. polygon.InteriorRings.Select(r => Ring(r, false))], area);

    private static List<PlanPoint> Ring(LineString ring, bool counterClockwise)
    {
        var points = ring.Coordinates.Skip(1).Select(c => new PlanPoint(Lattice.ToMetres(c.X), Lattice.ToMetres(c.Y))).ToList();
        if (NetTopologySuite.Algorithm.Orientation.IsCCW(ring.CoordinateSequence) != counterClockwise) points.Reverse();
        return points;
    }
}
