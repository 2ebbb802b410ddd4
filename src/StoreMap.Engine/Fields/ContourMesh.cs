using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>What is contoured: squares that share nodes and edges where the field goes on from one to the next. Two squares that
/// lie side by side without sharing their edge have a border between them, such as a wall.</summary>
internal sealed class ContourMesh
{
    /// <summary>The lattice on which the nodes lie; several may lie on one of its points.</summary>
    public required FieldGrid Lattice { get; init; }

    /// <summary>Index of each node's point of the lattice.</summary>
    public required int[] Spots { get; init; }

    /// <summary>Value at each node; finite at every node of a square.</summary>
    public required double[] Values { get; init; }

    /// <summary>Two nodes per edge.</summary>
    public required int[] EdgeNodes { get; init; }

    /// <summary>Four nodes per square: lower left, lower right, upper right, upper left.</summary>
    public required int[] SquareNodes { get; init; }

    /// <summary>Four edges per square: bottom, right, top, left.</summary>
    public required int[] SquareEdges { get; init; }

    public int Nodes => Values.Length;

    public int Edges => EdgeNodes.Length / 2;

    public int Squares => SquareNodes.Length / 4;

    /// <summary>The grid's points are the nodes; a square counts when its four nodes are finite.</summary>
    public static ContourMesh OfNodes(FieldGrid grid, double[] values)
    {
        Check(grid, values.Length);
        int columns = grid.Columns, count = grid.Count;
        // Edge n runs to the right of node n, edge count + n upwards.
        var edges = new int[4 * count];
        for (var n = 0; n < count; n++)
        {
            (edges[2 * n], edges[(2 * n) + 1]) = (n, n + 1);
            (edges[2 * (count + n)], edges[(2 * (count + n)) + 1]) = (n, n + columns);
        }

        List<int> squareNodes = [], squareEdges = [];
        for (var n = 0; n + columns + 1 < count; n++)
        {
            if (n % columns == columns - 1) continue;
            if (!double.IsFinite(values[n] + values[n + 1] + values[n + columns] + values[n + columns + 1])) continue;
            squareNodes.AddRange([n, n + 1, n + columns + 1, n + columns]);
            squareEdges.AddRange([n, count + n + 1, n + columns, count + n]);
        }

        return new ContourMesh
        {
            Lattice = grid, Spots = [.. Enumerable.Range(0, count)], Values = values, EdgeNodes = edges,
            SquareNodes = [.. squareNodes], SquareEdges = [.. squareEdges],
        };
    }

    /// <summary>Refuses arrays that don't fit the grid.</summary>
    public static void Check(FieldGrid grid, int length)
    {
        if (length != grid.Count)
            throw new ArgumentException($"The grid has {grid.Count} points but there are {length} values.", nameof(grid));
    }

    /// <summary>Place of a node, metres.</summary>
    public PlanPoint PlaceOf(int node) => Lattice.CentreOf(Spots[node]);

    /// <summary>Where an edge crosses a level, by linear interpolation.</summary>
    public PlanPoint CrossingAt(int edge, double level)
    {
        int a = EdgeNodes[2 * edge], b = EdgeNodes[(2 * edge) + 1];
        var t = Math.Clamp((level - Values[a]) / (Values[b] - Values[a]), 0, 1);
        PlanPoint from = PlaceOf(a), to = PlaceOf(b);
        return from + ((to - from) * t);
    }
}
