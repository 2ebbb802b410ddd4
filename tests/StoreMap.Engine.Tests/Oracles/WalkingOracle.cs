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

    /// <summary>Length of the shortest walk; infinity when there is none.</summary>
    public static double Length(Geometry floor, PlanPoint from, PlanPoint to)
    {
        var covers = PreparedGeometryFactory.Prepare(floor);
        var places = floor.Coordinates.Select(c => new PlanPoint(c.X, c.Y)).Append(from).Append(to).Distinct().ToList();
        var graph = new AdjacencyGraph<PlanPoint, Edge<PlanPoint>>();
        graph.AddVertexRange(places);
        foreach (var a in places)
        {
            foreach (var b in places.Where(b => b != a))
            {
                if (covers.Covers(Factory.CreateLineString([new(a.X, a.Y), new(b.X, b.Y)]))) graph.AddEdge(new(a, b));
            }
        }

        var paths = graph.ShortestPathsDijkstra(e => e.Source.DistanceTo(e.Target), from);
        return from == to ? 0 : paths(to, out var walk) ? walk.Sum(e => e.Source.DistanceTo(e.Target)) : double.PositiveInfinity;
    }

    /// <summary>A ring as a polygon.</summary>
    public static Polygon Polygon(IReadOnlyList<PlanPoint> ring) =>
        Factory.CreatePolygon([.. ring.Append(ring[0]).Select(p => new Coordinate(p.X, p.Y))]);
}
