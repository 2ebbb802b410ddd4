using System.Runtime.CompilerServices;

namespace StoreMap.Walking;

/// <summary>A uniform grid over the edges of the free floor. Cells are taken with a margin of one lattice step, so that no edge is
/// missed by rounding; all decisions are then made by exact predicates.</summary>
internal sealed class EdgeGrid
{
    private const double Margin = 1;
    private readonly int columns;
    private readonly int rows;
    private readonly double left;
    private readonly double bottom;
    private readonly double cell;

    public EdgeGrid(FloorBoundary boundary)
    {
        Boundary = boundary;
        var (x, y) = (boundary.X, boundary.Y);
        if (x.Length == 0)
        {
            (columns, rows, cell) = (1, 1, 1);
        }
        else
        {
            (left, bottom) = (x.Min(), y.Min());
            var (width, height) = (x.Max() - left, y.Max() - bottom);
            cell = Math.Max(1, Math.Sqrt(width * height / Math.Max(1, boundary.EdgeCount)));
            columns = 1 + (int)(width / cell);
            rows = 1 + (int)(height / cell);
        }

        (Start, Edges) = Fill();
    }

    public FloorBoundary Boundary { get; }

    /// <summary>First entry of each cell in <see cref="Edges"/>, row by row, and the number of entries at the end.</summary>
    public int[] Start { get; }

    /// <summary>Edge numbers, cell by cell, ascending within a cell.</summary>
    public int[] Edges { get; }

    public int Columns => columns;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int RowOf(double y) => Math.Clamp((int)Math.Floor((y - bottom) / cell), 0, rows - 1);

    /// <summary>The cells of one row that a segment with <c>y1 &lt;= y2</c> may touch.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (int First, int Last) CellsInRow(int row, double x1, double y1, double x2, double y2)
    {
        var (low, high) = (x1, x2);
        if (y2 > y1)
        {
            // The end rows also stand for everything below and above the grid.
            var slope = (x2 - x1) / (y2 - y1);
            if (row > 0 && bottom + (row * cell) - Margin > y1) low = x1 + ((bottom + (row * cell) - Margin - y1) * slope);
            if (row < rows - 1 && bottom + ((row + 1) * cell) + Margin < y2) high = x1 + ((bottom + ((row + 1) * cell) + Margin - y1) * slope);
        }

        if (low > high) (low, high) = (high, low);
        return (ColumnOf(low - Margin), ColumnOf(high + Margin));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int ColumnOf(double x) => Math.Clamp((int)Math.Floor((x - left) / cell), 0, columns - 1);

    private (int[] Start, int[] Edges) Fill()
    {
        var start = new int[(rows * columns) + 1];
        ForEachCell((c, _) => start[c + 1]++);
        for (var c = 0; c < rows * columns; c++) start[c + 1] += start[c];
        var edges = new int[start[^1]];
        var next = start.ToArray();
        ForEachCell((c, e) => edges[next[c]++] = e);
        return (start, edges);
    }

    private void ForEachCell(Action<int, int> visit)
    {
        var b = Boundary;
        for (var e = 0; e < b.EdgeCount; e++)
        {
            var (x1, y1, x2, y2) = (b.X[b.From[e]], b.Y[b.From[e]], b.X[b.To[e]], b.Y[b.To[e]]);
            if (y1 > y2) (x1, y1, x2, y2) = (x2, y2, x1, y1);
            var last = RowOf(y2 + Margin);
            for (var row = RowOf(y1 - Margin); row <= last; row++)
            {
                var (first, end) = CellsInRow(row, x1, y1, x2, y2);
                for (var column = first; column <= end; column++) visit((row * columns) + column, e);
            }
        }
    }
}
