using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>The nodes of the graph that a place sees, with the length of the straight walk.</summary>
/// <param name="Place">The place.</param>
/// <param name="Nodes">Node numbers, ascending.</param>
/// <param name="Lengths">Metres to each.</param>
internal sealed record Attachment(Place Place, int[] Nodes, double[] Lengths)
{
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static Attachment Of(Place place, VisibilityGraph graph, SightLine sight)
    {
        var nodes = new List<int>();
        var lengths = new List<double>();
        for (var v = 0; v < graph.NodeCount; v++)
        {
            var (ux, uy) = (graph.X[v] - place.X, graph.Y[v] - place.Y);
            if (graph.Region[v] != place.Region || !Sees(place, graph, v, ux, uy, sight)) continue;
            nodes.Add(v);
            lengths.Add(VisibilityGraph.LengthOf(ux, uy));
        }

        return new(place, [.. nodes], [.. lengths]);
    }

    /// <summary>Length of the straight walk between two places in metres; infinity when it is blocked.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static double Straight(in Place a, in Place b, SightLine sight)
    {
        var (ux, uy) = (b.X - a.X, b.Y - a.Y);
        if (ux == 0 && uy == 0) return 0;
        var free = a.Region == b.Region && a.Around.Allows(ux, uy) && b.Around.Allows(-ux, -uy)
            && Sector.SameSide(a.Around, b.Around, ux, uy) && !sight.Blocked(a.X, a.Y, b.X, b.Y);
        return free ? VisibilityGraph.LengthOf(ux, uy) : double.PositiveInfinity;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool Sees(in Place place, VisibilityGraph graph, int node, double ux, double uy, SightLine sight)
    {
        if (ux == 0 && uy == 0) return graph.Around[node] == place.Around;
        return graph.Around[node].IsTangent(ux, uy) && place.Around.Allows(ux, uy)
            && Sector.SameSide(place.Around, graph.Around[node], ux, uy)
            && !sight.Blocked(place.X, place.Y, graph.X[node], graph.Y[node]);
    }
}
