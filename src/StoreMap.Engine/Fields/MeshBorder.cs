namespace StoreMap.Fields;

/// <summary>The edges with a square on exactly one side, directed so that it lies on the left.</summary>
/// <param name="From">Node each edge starts at.</param>
/// <param name="To">Node it ends at.</param>
/// <param name="Edge">Number of the edge.</param>
/// <param name="Square">The square on its left.</param>
internal sealed record MeshBorder(List<int> From, List<int> To, List<int> Edge, List<int> Square)
{
    public static MeshBorder Of(ContourMesh mesh)
    {
        var uses = new int[mesh.Edges];
        foreach (var edge in mesh.SquareEdges) uses[edge]++;
        var border = new MeshBorder([], [], [], []);
        for (var i = 0; i < mesh.SquareEdges.Length; i++)
        {
            if (uses[mesh.SquareEdges[i]] != 1) continue;
            // Side k of a square runs from its corner k to the next.
            border.From.Add(mesh.SquareNodes[i]);
            border.To.Add(mesh.SquareNodes[i % 4 == 3 ? i - 3 : i + 1]);
            border.Edge.Add(mesh.SquareEdges[i]);
            border.Square.Add(i / 4);
        }

        return border;
    }
}
