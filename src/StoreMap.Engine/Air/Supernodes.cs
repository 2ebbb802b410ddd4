namespace StoreMap.Air;

/// <summary>Columns of a factor with like patterns, kept as dense blocks: what a factorisation needs to know before it sees values.</summary>
/// <remarks>Small neighbours are merged although that stores some zeros, since wide blocks run faster. Source: Davis, Direct Methods
/// for Sparse Linear Systems, SIAM 2006, and Rothberg and Gupta, as surveyed in Davis, Rajamanickam and Sid-Lakhdar, Acta Numerica 25,
/// 2016.</remarks>
internal sealed class Supernodes
{
    private Supernodes(EliminationTree tree, int[] firstColumns, int trailing)
    {
        (Order, First, Trailing) = (tree.Order, firstColumns, trailing);
        Position = EliminationTree.Inverse(Order);
        Count = firstColumns.Length - 1;
        (RowStarts, Relative, Parent, PanelStarts) = (new int[Count + 1], [], new int[Count], new int[Count + 1]);
        Rows = [];
        HasChildren = new bool[Count];
    }

    /// <summary>Unknowns in order of elimination.</summary>
    public int[] Order { get; }

    /// <summary>Place of each unknown in the order.</summary>
    public int[] Position { get; }

    /// <summary>Number of supernodes.</summary>
    public int Count { get; }

    /// <summary>First column of each supernode; one more than <see cref="Count"/> values.</summary>
    public int[] First { get; }

    /// <summary>Start of each supernode's rows in <see cref="Rows"/>.</summary>
    public int[] RowStarts { get; }

    /// <summary>Rows below each supernode's own columns, ascending.</summary>
    public int[] Rows { get; private set; }

    /// <summary>For each of <see cref="Rows"/>, its place in the front (own columns, then rows) of the parent.</summary>
    public int[] Relative { get; private set; }

    /// <summary>The supernode that takes a supernode's update; -1 for a root.</summary>
    public int[] Parent { get; }

    /// <summary>True for supernodes that are a parent.</summary>
    public bool[] HasChildren { get; }

    /// <summary>Start of each supernode's values: a column-major block of width + rows by width.</summary>
    public int[] PanelStarts { get; }

    /// <summary>Width of the last supernode when it was asked for as one dense block; else 0.</summary>
    public int Trailing { get; }

    /// <summary>Columns of a supernode.</summary>
    public int Width(int s) => First[s + 1] - First[s];

    /// <summary>Rows below a supernode.</summary>
    public int Below(int s) => RowStarts[s + 1] - RowStarts[s];

    /// <summary>Analyses a pattern.</summary>
    /// <param name="matrix">The matrix; its values do not matter.</param>
    /// <param name="order">Unknowns in order of elimination.</param>
    /// <param name="trailing">How many of the last ones form one dense block of their own; 0 for none.</param>
    /// <exception cref="InvalidOperationException">The factor would hold more than 2^30 values.</exception>
    public static Supernodes Of(SymmetricMatrix matrix, int[] order, int trailing = 0)
    {
        var tree = EliminationTree.Of(matrix, order, trailing);
        var nodes = new Supernodes(tree, SupernodeColumns.Of(tree, trailing), trailing);
        nodes.FindRows(matrix);
        return nodes;
    }

    // Row by row, so that each supernode's come in order: a row of the matrix reaches the supernodes of its earlier columns and, through their updates,
    // the parents of these up to its own (row subtrees: Liu, SIAM J. Matrix Anal. Appl. 11, 1990).
    private void FindRows(SymmetricMatrix matrix)
    {
        var (starts, neighbours) = matrix.Adjacency();
        var (superOf, reached, rows) = (new int[Order.Length], new int[Count], new List<int>[Count]);
        for (var s = 0; s < Count; s++)
        {
            (Parent[s], reached[s], rows[s]) = (-1, -1, []);
            for (var j = First[s]; j < First[s + 1]; j++) superOf[j] = s;
        }

        for (var row = 0; row < Order.Length; row++)
        {
            for (var k = starts[Order[row]]; k < starts[Order[row] + 1]; k++)
            {
                for (var s = superOf[Position[neighbours[k]]]; s >= 0 && s < superOf[row] && reached[s] != row; s = Parent[s])
                {
                    reached[s] = row;
                    rows[s].Add(row);
                    if (Parent[s] < 0) Parent[s] = superOf[row];
                }
            }
        }

        long panel = 0;
        for (var s = 0; s < Count; s++)
        {
            RowStarts[s + 1] = RowStarts[s] + rows[s].Count;
            if (Parent[s] >= 0) HasChildren[Parent[s]] = true;
            panel += (long)Width(s) * (Width(s) + rows[s].Count);
            if (panel > 1 << 30) throw new InvalidOperationException("The factor would hold more than 2^30 values; take larger cells.");
            PanelStarts[s + 1] = (int)panel;
        }

        Rows = [.. rows.SelectMany(own => own)];
        FindRelative();
    }

    private void FindRelative()
    {
        Relative = new int[Rows.Length];
        for (var s = 0; s < Count; s++)
        {
            var p = Parent[s];
            if (p < 0) continue;
            var at = RowStarts[p];
            for (var k = RowStarts[s]; k < RowStarts[s + 1]; k++)
            {
                if (Rows[k] < First[p + 1])
                {
                    Relative[k] = Rows[k] - First[p];
                    continue;
                }

                while (Rows[at] != Rows[k]) at++;
                Relative[k] = Width(p) + at - RowStarts[p];
            }
        }
    }
}
