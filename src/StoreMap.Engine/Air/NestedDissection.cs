namespace StoreMap.Air;

/// <summary>Fill-reducing elimination order for matrices on a grid: halves are eliminated before the cells that part them.</summary>
/// <remarks>Source: George, Nested dissection of a regular finite element mesh, SIAM J. Numer. Anal. 10, 1973. The parting line is the
/// row or column, or pair of them, with fewest cells near the middle, so passages between walls are found; cells of it that touch one
/// side only join the other side.</remarks>
internal sealed class NestedDissection
{
    private const int LeafSize = 24;
    private readonly int[] columns;
    private readonly int[] rows;
    private readonly int[] starts;
    private readonly int[] neighbours;
    private readonly int[] order;
    private readonly int[] part;
    private readonly int reach;

    private NestedDissection(int[] columns, int[] rows, SymmetricMatrix matrix, int[] order)
    {
        (this.columns, this.rows, this.order) = (columns, rows, order);
        (starts, neighbours) = matrix.Adjacency();
        part = new int[columns.Length];
        for (var i = 0; i < columns.Length; i++)
        {
            for (var k = starts[i]; k < starts[i + 1]; k++)
            {
                var j = neighbours[k];
                reach = Math.Max(reach, Math.Max(Math.Abs(columns[i] - columns[j]), Math.Abs(rows[i] - rows[j])));
            }
        }
    }

    /// <summary>Orders the unknowns.</summary>
    /// <param name="columns">Grid column of each unknown.</param>
    /// <param name="rows">Grid row of each unknown.</param>
    /// <param name="matrix">Its pattern says which unknowns touch.</param>
    /// <param name="last">Unknowns to come last, in this order; distinct.</param>
    /// <returns>Unknowns in the order of elimination.</returns>
    public static int[] Order(int[] columns, int[] rows, SymmetricMatrix matrix, ReadOnlySpan<int> last = default)
    {
        var order = new int[columns.Length];
        var isLast = new bool[columns.Length];
        var end = columns.Length - last.Length;
        for (var i = 0; i < last.Length; i++)
        {
            order[end + i] = last[i];
            isLast[last[i]] = true;
        }

        var rest = Enumerable.Range(0, columns.Length).Where(i => !isLast[i]).ToArray();
        new NestedDissection(columns, rows, matrix, order).Part(rest, end);
        return order;
    }

    // Writes the set to order[end - set.Length, end).
    private void Part(int[] set, int end)
    {
        if (set.Length <= LeafSize || !FindCut(set, out var axis, out var cut))
        {
            set.CopyTo(order, end - set.Length);
            return;
        }

        foreach (var i in set) part[i] = axis[i] < cut ? 1 : axis[i] < cut + reach ? 2 : 3;
        foreach (var i in set)
        {
            if (part[i] != 2) continue;
            if (!Touches(i, 1)) part[i] = 3;
            else if (!Touches(i, 3)) part[i] = 1;
        }

        var (low, middle, high) = (Take(set, 1), Take(set, 2), Take(set, 3));
        foreach (var i in set) part[i] = 0;
        middle.CopyTo(order, end - middle.Length);
        Part(high, end - middle.Length);
        Part(low, end - middle.Length - high.Length);
    }

    private int[] Take(int[] set, int which) => Array.FindAll(set, i => part[i] == which);

    private bool Touches(int i, int which)
    {
        for (var k = starts[i]; k < starts[i + 1]; k++)
        {
            if (part[neighbours[k]] == which) return true;
        }

        return false;
    }

    private bool FindCut(int[] set, out int[] axis, out int cut)
    {
        var (byColumn, columnCut) = BestCut(set, columns);
        var (byRow, rowCut) = BestCut(set, rows);
        (axis, cut) = byColumn <= byRow ? (columns, columnCut) : (rows, rowCut);
        return Math.Min(byColumn, byRow) < double.PositiveInfinity;
    }

    // The fewest cells on the parting line, weighed against lopsided halves.
    private (double Cost, int Cut) BestCut(int[] set, int[] axis)
    {
        var (min, max) = (int.MaxValue, int.MinValue);
        foreach (var i in set) (min, max) = (Math.Min(min, axis[i]), Math.Max(max, axis[i]));
        var below = new int[max - min + 2];
        foreach (var i in set) below[axis[i] - min + 1]++;
        for (var i = 1; i < below.Length; i++) below[i] += below[i - 1];
        var (best, bestCut) = (double.PositiveInfinity, 0);
        for (var cut = min + 1; cut + reach <= max; cut++)
        {
            var low = below[cut - min];
            var line = below[cut + reach - min] - low;
            var high = set.Length - low - line;
            if (low == 0 || high == 0) continue;
            var lopsided = (double)Math.Max(low, high) / (low + high);
            var cost = line * (1 + (4 * (lopsided - 0.5))) / (lopsided > 0.8 ? 0.25 : 1);
            if (cost < best) (best, bestCut) = (cost, cut);
        }

        return (best, bestCut);
    }
}
