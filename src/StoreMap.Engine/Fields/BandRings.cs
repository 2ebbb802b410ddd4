using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Joins the border of one band into rings. The border is made of the lower level's pieces, the upper level's pieces
/// turned round, and those parts of the mesh border whose values lie in the band; between two squares that both count
/// nothing needs to be drawn. Vertices are known by what they are (a crossing of an edge, a node), never by coordinates, so
/// joining cannot fail by rounding.</summary>
internal sealed class BandRings(ContourMesh mesh, MeshBorder border, LevelCrossings? low, LevelCrossings? high)
{
    private readonly int edges = mesh.Edges;
    private readonly List<int> from = [];
    private readonly List<int> to = [];
    private readonly List<int> square = [];

    public List<IReadOnlyList<PlanPoint>> Trace()
    {
        Collect();
        // At a node where two squares meet only by their corners two pieces start; each goes on with its own square's.
        var first = new int[(2 * edges) + mesh.Nodes];
        var second = new int[from.Count];
        Array.Fill(first, -1);
        for (var p = from.Count - 1; p >= 0; p--)
        {
            second[p] = first[from[p]];
            first[from[p]] = p;
        }

        List<IReadOnlyList<PlanPoint>> rings = [];
        var used = new bool[from.Count];
        for (var start = 0; start < used.Length; start++)
        {
            if (used[start]) continue;
            List<PlanPoint> ring = [];
            for (var p = start; !used[p];)
            {
                used[p] = true;
                var point = PointOf(from[p]);
                if (ring.Count == 0 || ring[^1] != point) ring.Add(point);
                var next = first[to[p]];
                if (second[next] >= 0 && square[next] != square[p]) next = second[next];
                p = next;
            }

            while (ring.Count > 1 && ring[0] == ring[^1]) ring.RemoveAt(ring.Count - 1);
            if (ring.Count >= 3 && Math.Abs(Ring.SignedArea(ring)) > 1e-12 * mesh.Lattice.CellMetres * mesh.Lattice.CellMetres) rings.Add(ring);
        }

        return rings;
    }

    private void Collect()
    {
        for (var p = 0; p < (low?.From.Count ?? 0); p++) Add(low!.From[p], low.To[p], -1);
        for (var p = 0; p < (high?.From.Count ?? 0); p++) Add(edges + high!.To[p], edges + high.From[p], -1);
        for (var p = 0; p < border.From.Count; p++)
        {
            int a = Side(border.From[p]), b = Side(border.To[p]);
            if (a == b && a != 0) continue;
            var begin = a == 0 ? (2 * edges) + border.From[p] : (a > 0 ? edges : 0) + border.Edge[p];
            var end = b == 0 ? (2 * edges) + border.To[p] : (b > 0 ? edges : 0) + border.Edge[p];
            Add(begin, end, border.Square[p]);
        }
    }

    private int Side(int node)
    {
        var value = mesh.Values[node];
        return value < low?.Level ? -1 : value >= high?.Level ? 1 : 0;
    }

    private void Add(int begin, int end, int inSquare)
    {
        from.Add(begin);
        to.Add(end);
        square.Add(inSquare);
    }

    private PlanPoint PointOf(int vertex) =>
        vertex < edges ? mesh.CrossingAt(vertex, low!.Level)
        : vertex < 2 * edges ? mesh.CrossingAt(vertex - edges, high!.Level)
        : mesh.PlaceOf(vertex - (2 * edges));
}
