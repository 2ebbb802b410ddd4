using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>Tells whether a straight walk is blocked. Holds scratch memory: one per thread.</summary>
/// <remarks>Optimised at the first call, like all that is asked a hundred thousand times for one matrix.</remarks>
internal sealed class SightLine(EdgeGrid grid)
{
    private readonly int[] seen = new int[grid.Boundary.EdgeCount];
    private int query;
    private int lastBlocker = -1;

    /// <summary>True when an edge crosses the walk between two places, or a corner lies strictly between them. A corner that the walk
    /// may pass is a stop of its own in the graph, so nothing is lost by stopping there.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Blocked(double px, double py, double qx, double qy)
    {
        // Neighbouring walks are mostly blocked by the same edge.
        if (lastBlocker >= 0 && Blocks(lastBlocker, px, py, qx, qy)) return true;
        if (++query == int.MaxValue)
        {
            Array.Clear(seen);
            query = 1;
        }

        var (x1, y1, x2, y2) = py <= qy ? (px, py, qx, qy) : (qx, qy, px, py);
        var (firstRow, lastRow) = (grid.RowOf(y1 - 1), grid.RowOf(y2 + 1));
        for (var row = firstRow; row <= lastRow; row++)
        {
            var (first, last) = grid.CellsInRow(row, x1, y1, x2, y2);
            var end = grid.Start[(row * grid.Columns) + last + 1];
            for (var i = grid.Start[(row * grid.Columns) + first]; i < end; i++)
            {
                var e = grid.Edges[i];
                if (seen[e] == query) continue;
                seen[e] = query;
                if (!Blocks(e, px, py, qx, qy)) continue;
                lastBlocker = e;
                return true;
            }
        }

        return false;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private bool Blocks(int edge, double px, double py, double qx, double qy)
    {
        var b = grid.Boundary;
        var (from, to) = (b.From[edge], b.To[edge]);
        var (ax, ay, bx, by) = (b.X[from], b.Y[from], b.X[to], b.Y[to]);
        var a = Lattice.Side(px, py, qx, qy, ax, ay);
        var c = Lattice.Side(px, py, qx, qy, bx, by);
        if (a * c > 0) return false;
        if (a == 0 && c == 0) return Between(ax, ay, px, py, qx, qy) || Between(bx, by, px, py, qx, qy);
        return Lattice.Side(ax, ay, bx, by, px, py) * Lattice.Side(ax, ay, bx, by, qx, qy) < 0;
    }

    /// <summary>True when a point known to lie on the line through p and q lies strictly between them.</summary>
    private static bool Between(double x, double y, double px, double py, double qx, double qy) =>
        px != qx ? (px < x && x < qx) || (qx < x && x < px) : (py < y && y < qy) || (qy < y && y < py);
}
