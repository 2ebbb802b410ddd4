using NetTopologySuite.Geometries;
using NetTopologySuite.Geometries.Prepared;
using QuikGraph;
using QuikGraph.Algorithms;
using StoreMap.Plans;

namespace StoreMap.Tests.Oracles;

/// <summary>Shortest walks by libraries alone: every corner and both ends joined where a NetTopologySuite polygon covers the segment,
/// searched by QuikGraph. Slow, and exact on coordinates that doubles hold exactly.</summary>
internal static class WalkingOracle
{
    private static readonly GeometryFactory Factory = new();

    /// <summary>The inside of a ring less the union of others.</summary>
    public static Geometry Floor(IReadOnlyList<PlanPoint> outline, IEnumerable<IReadOnlyList<PlanPoint>> obstacles) =>
        obstacles.Aggregate((Geometry)Polygon(outline), (floor, ring) => floor.Difference(Polygon(ring)));

    /// <summary>Lengths of the shortest walks from the first point to all; infinity where there is none.</summary>
    public static double[] Lengths(Geometry floor, IReadOnlyList<PlanPoint> points)
    {
        var covers = PreparedGeometryFactory.Prepare(floor);
        var places = floor.Coordinates.Select(c => new PlanPoint(c.X, c.Y)).Concat(points).Distinct().ToList();
        var graph = new UndirectedGraph<PlanPoint, Edge<PlanPoint>>();
        graph.AddVertexRange(places);
        for (var i = 0; i < places.Count; i++)
        {
            for (var j = 0; j < i; j++)
            {
                var (a, b) = (places[i], places[j]);
                if (covers.Covers(Factory.CreateLineString([new(a.X, a.Y), new(b.X, b.Y)]))) graph.AddEdge(new(a, b));
            }
        }

        var paths = graph.ShortestPathsDijkstra(e => e.Source.DistanceTo(e.Target), points[0]);
        return [.. points.Select(to => to == points[0] ? 0 : paths(to, out var walk) ? walk.Sum(e => e.Source.DistanceTo(e.Target)) : double.PositiveInfinity)];
    }

    /// <summary>A ring as a polygon.</summary>
    public static Polygon Polygon(IReadOnlyList<PlanPoint> ring) =>
        Factory.CreatePolygon([.. ring.Append(ring[0]).Select(p => new Coordinate(p.X, p.Y))]);
}
