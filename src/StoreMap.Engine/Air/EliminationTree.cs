namespace StoreMap.Air;

/// <summary>The elimination tree of a sparse symmetric matrix under an order, and the number of entries of each column of its factor.</summary>
/// <remarks>Source: Liu, The role of elimination trees in sparse factorization, SIAM J. Matrix Anal. Appl. 11, 1990.</remarks>
internal sealed class EliminationTree
{
    private EliminationTree(int[] order, int[] parent, int[] counts) => (Order, Parent, Counts) = (order, parent, counts);

    /// <summary>The order, rearranged so that every subtree is contiguous: fill is the same.</summary>
    public int[] Order { get; }

    /// <summary>Parent of each position; -1 for a root.</summary>
    public int[] Parent { get; }

    /// <summary>Entries of each column of the factor, diagonal included.</summary>
    public int[] Counts { get; }

    /// <summary>Builds the tree.</summary>
    /// <param name="matrix">The matrix.</param>
    /// <param name="order">Unknowns in order of elimination.</param>
    /// <param name="trailing">How many of the last columns count as one dense block.</param>
    public static EliminationTree Of(SymmetricMatrix matrix, int[] order, int trailing)
    {
        var adjacency = matrix.Adjacency();
        var parent = Parents(adjacency, order, trailing);
        var post = Postorder(parent);
        var rearranged = Array.ConvertAll(post, position => order[position]);
        var position = Inverse(post);
        var moved = new int[parent.Length];
        for (var j = 0; j < parent.Length; j++) moved[position[j]] = parent[j] < 0 ? -1 : position[parent[j]];
        return new EliminationTree(rearranged, moved, ColumnCounts(adjacency, rearranged, moved, trailing));
    }

    /// <summary>The inverse of a permutation.</summary>
    public static int[] Inverse(int[] permutation)
    {
        var inverse = new int[permutation.Length];
        for (var i = 0; i < permutation.Length; i++) inverse[permutation[i]] = i;
        return inverse;
    }

    private static int[] Parents((int[] Starts, int[] Neighbours) adjacency, int[] order, int trailing)
    {
        var n = order.Length;
        var position = Inverse(order);
        var (parent, ancestor) = (new int[n], new int[n]);
        for (var j = 0; j < n; j++)
        {
            (parent[j], ancestor[j]) = (-1, -1);
            for (var k = adjacency.Starts[order[j]]; k < adjacency.Starts[order[j] + 1]; k++)
            {
                var i = position[adjacency.Neighbours[k]];
                while (i >= 0 && i < j)
                {
                    var next = ancestor[i];
                    ancestor[i] = j;
                    if (next < 0) parent[i] = j;
                    i = next;
                }
            }
        }

        for (var j = n - trailing; j + 1 < n; j++) parent[j] = j + 1;
        return parent;
    }

    // Children ascending, so the dense block at the end stays together.
    private static int[] Postorder(int[] parent)
    {
        var n = parent.Length;
        var (first, next) = (new int[n], new int[n]);
        Array.Fill(first, -1);
        for (var j = n - 1; j >= 0; j--)
        {
            next[j] = -1;
            if (parent[j] < 0) continue;
            next[j] = first[parent[j]];
            first[parent[j]] = j;
        }

        var post = new int[n];
        var stack = new int[n];
        var filled = 0;
        for (var root = 0; root < n; root++)
        {
            if (parent[root] >= 0) continue;
            var depth = 0;
            stack[depth++] = root;
            while (depth > 0)
            {
                var j = stack[depth - 1];
                if (first[j] >= 0)
                {
                    stack[depth++] = first[j];
                    first[j] = next[first[j]];
                }
                else
                {
                    post[filled++] = j;
                    depth--;
                }
            }
        }

        return post;
    }

    // Every row of the factor is a subtree of the tree; count how often each column is met.
    private static int[] ColumnCounts((int[] Starts, int[] Neighbours) adjacency, int[] order, int[] parent, int trailing)
    {
        var n = order.Length;
        var position = Inverse(order);
        var (counts, mark) = (new int[n], new int[n]);
        for (var i = 0; i < n; i++)
        {
            (counts[i], mark[i]) = (1, i);
            for (var k = adjacency.Starts[order[i]]; k < adjacency.Starts[order[i] + 1]; k++)
            {
                for (var j = position[adjacency.Neighbours[k]]; j < i && j >= 0 && mark[j] != i; j = parent[j])
                {
                    mark[j] = i;
                    counts[j]++;
                }
            }
        }

        for (var j = n - trailing; j < n; j++) counts[j] = n - j;
        return counts;
    }
}
