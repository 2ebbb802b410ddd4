namespace StoreMap.Fields;

/// <summary>Marching squares for one level: directed pieces from edge to edge with the values at or above the level on the
/// left. An ambiguous square (saddle) is decided by the mean of its four corners. Every crossed edge begins at most one piece
/// and ends at most one.</summary>
internal sealed class LevelCrossings
{
    // Edges of a square: 0 bottom, 1 right, 2 top, 3 left. Corner bits: 1 lower left, 2 lower right, 4 upper right, 8 upper left.
    private static readonly int[][] Pieces =
    [
        [], [0, 3], [1, 0], [1, 3], [2, 1], [], [2, 0], [2, 3],
        [3, 2], [0, 2], [], [1, 2], [3, 1], [0, 1], [3, 0], [],
    ];

    private static readonly int[] LowLeftApart = [0, 3, 2, 1], LowLeftJoined = [0, 1, 2, 3];
    private static readonly int[] LowRightApart = [1, 0, 3, 2], LowRightJoined = [3, 0, 1, 2];

    private LevelCrossings(double level, List<int> from, List<int> to)
    {
        Level = level;
        From = from;
        To = to;
    }

    public double Level { get; }

    public List<int> From { get; }

    public List<int> To { get; }

    public static LevelCrossings Of(ContourMesh mesh, double level)
    {
        List<int> from = [], to = [];
        var values = mesh.Values;
        var nodes = mesh.SquareNodes;
        for (var q = 0; q < nodes.Length; q += 4)
        {
            double a = values[nodes[q]], b = values[nodes[q + 1]], c = values[nodes[q + 2]], d = values[nodes[q + 3]];
            var corners = (a >= level ? 1 : 0) | (b >= level ? 2 : 0) | (c >= level ? 4 : 0) | (d >= level ? 8 : 0);
            if (corners is 0 or 15) continue;
            var joined = (a + b + c + d) / 4 >= level;
            var pieces = corners switch
            {
                5 => joined ? LowLeftJoined : LowLeftApart,
                10 => joined ? LowRightJoined : LowRightApart,
                _ => Pieces[corners],
            };
            for (var p = 0; p < pieces.Length; p += 2)
            {
                from.Add(mesh.SquareEdges[q + pieces[p]]);
                to.Add(mesh.SquareEdges[q + pieces[p + 1]]);
            }
        }

        return new LevelCrossings(level, from, to);
    }
}
