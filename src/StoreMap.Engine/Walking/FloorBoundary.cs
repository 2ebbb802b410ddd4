using NetTopologySuite.Geometries;

namespace StoreMap.Walking;

/// <summary>The edges of the free floor as arrays in lattice steps: each edge has the floor on its left. Corners are sorted by x, then
/// y; edges by their ends; straight-on corners are dropped.</summary>
internal sealed class FloorBoundary
{
    private FloorBoundary(double[] x, double[] y, int[] from, int[] to, int[] region, int[] sectorStart, Sector[] sectors, int[] sectorRegion)
    {
        X = x;
        Y = y;
        From = from;
        To = to;
        Region = region;
        SectorStart = sectorStart;
        Sectors = sectors;
        SectorRegion = sectorRegion;
    }

    /// <summary>Corner coordinates.</summary>
    public double[] X { get; }

    /// <summary>Corner coordinates.</summary>
    public double[] Y { get; }

    /// <summary>Corner where an edge begins.</summary>
    public int[] From { get; }

    /// <summary>Corner where an edge ends.</summary>
    public int[] To { get; }

    /// <summary>Number of the connected floor an edge bounds.</summary>
    public int[] Region { get; }

    /// <summary>First sector of each corner, and the number of sectors at the end. A corner has several where blocks touch in a point.</summary>
    public int[] SectorStart { get; }

    /// <summary>Free angles, corner by corner.</summary>
    public Sector[] Sectors { get; }

    /// <summary>Number of the connected floor a sector opens to.</summary>
    public int[] SectorRegion { get; }

    public int EdgeCount => From.Length;

    public int CornerCount => X.Length;

    /// <summary>Reads valid polygons with whole-number corners; region numbers are the list's.</summary>
    public static FloorBoundary Of(IReadOnlyList<Polygon> polygons)
    {
        var rings = new List<(Coordinate[] Points, int Region)>();
        for (var r = 0; r < polygons.Count; r++)
        {
            rings.Add((Oriented(polygons[r].ExteriorRing, counterClockwise: true), r));
            foreach (var hole in polygons[r].InteriorRings) rings.Add((Oriented(hole, counterClockwise: false), r));
        }

        var uses = new Dictionary<(double, double), int>();
        foreach (var (points, _) in rings)
        {
            foreach (var p in points) uses[(p.X, p.Y)] = uses.GetValueOrDefault((p.X, p.Y)) + 1;
        }

        var edges = new List<(double X1, double Y1, double X2, double Y2, int Region)>();
        foreach (var (points, region) in rings)
        {
            var kept = WithoutStraightCorners(points, uses);
            for (var i = 0; i < kept.Count; i++)
            {
                var (a, b) = (kept[i], kept[(i + 1) % kept.Count]);
                edges.Add((a.X, a.Y, b.X, b.Y, region));
            }
        }

        edges.Sort();
        return FromEdges(edges);
    }

    private static Coordinate[] Oriented(LineString ring, bool counterClockwise)
    {
        var points = ring.Coordinates[..^1];
        if (NetTopologySuite.Algorithm.Orientation.IsCCW(ring.CoordinateSequence) != counterClockwise) Array.Reverse(points);
        return points;
    }

    private static List<Coordinate> WithoutStraightCorners(Coordinate[] points, Dictionary<(double, double), int> uses)
    {
        var kept = new List<Coordinate>(points.Length);
        for (var i = 0; i < points.Length; i++)
        {
            var p = points[i];
            var before = kept.Count > 0 ? kept[^1] : points[^1];
            var after = points[(i + 1) % points.Length];
            var straight = uses[(p.X, p.Y)] == 1 && Lattice.Side(before.X, before.Y, p.X, p.Y, after.X, after.Y) == 0;
            if (!straight) kept.Add(p);
        }

        return kept;
    }

    private static FloorBoundary FromEdges(List<(double X1, double Y1, double X2, double Y2, int Region)> edges)
    {
        var corners = new List<(double X, double Y)>();
        foreach (var e in edges) corners.Add((e.X1, e.Y1));
        corners.Sort();
        corners = corners.Distinct().ToList();
        var x = corners.Select(c => c.X).ToArray();
        var y = corners.Select(c => c.Y).ToArray();
        var from = new int[edges.Count];
        var to = new int[edges.Count];
        var region = new int[edges.Count];
        for (var e = 0; e < edges.Count; e++)
        {
            from[e] = corners.BinarySearch((edges[e].X1, edges[e].Y1));
            to[e] = corners.BinarySearch((edges[e].X2, edges[e].Y2));
            region[e] = edges[e].Region;
        }

        var (start, sectors, sectorRegion) = FreeAngles(x, y, from, to, region);
        return new FloorBoundary(x, y, from, to, region, start, sectors, sectorRegion);
    }

    private static (int[] Start, Sector[] Sectors, int[] Region) FreeAngles(double[] x, double[] y, int[] from, int[] to, int[] region)
    {
        var leaving = new List<int>[x.Length];
        var arriving = new List<int>[x.Length];
        for (var c = 0; c < x.Length; c++) (leaving[c], arriving[c]) = ([], []);
        for (var e = 0; e < from.Length; e++)
        {
            leaving[from[e]].Add(e);
            arriving[to[e]].Add(e);
        }

        var start = new int[x.Length + 1];
        var sectors = new List<Sector>();
        var regions = new List<int>();
        for (var c = 0; c < x.Length; c++)
        {
            foreach (var a in leaving[c])
            {
                var (ax, ay) = (x[to[a]] - x[c], y[to[a]] - y[c]);
                Sector? narrowest = null;
                foreach (var b in arriving[c])
                {
                    var candidate = new Sector(ax, ay, x[from[b]] - x[c], y[from[b]] - y[c]);
                    if (narrowest is null || (narrowest.Value.Allows(candidate.Bx, candidate.By) && narrowest != candidate)) narrowest = candidate;
                }

                sectors.Add(narrowest ?? throw new InvalidOperationException("An edge of the free floor leaves a corner that none reaches."));
                regions.Add(region[a]);
            }

            start[c + 1] = sectors.Count;
        }

        return (start, [.. sectors], [.. regions]);
    }
}
