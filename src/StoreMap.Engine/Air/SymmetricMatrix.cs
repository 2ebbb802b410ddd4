namespace StoreMap.Air;

/// <summary>A sparse symmetric matrix: the lower triangle by columns, diagonal included, rows ascending in each column.</summary>
internal sealed class SymmetricMatrix
{
    /// <summary>Takes the arrays as they are.</summary>
    /// <param name="starts">n + 1 starts into <paramref name="rows"/>; the first is 0.</param>
    /// <param name="rows">Row of each entry; each column begins with its diagonal.</param>
    /// <param name="values">Value of each entry.</param>
    public SymmetricMatrix(int[] starts, int[] rows, double[] values) => (Starts, Rows, Values) = (starts, rows, values);

    /// <summary>Order of the matrix.</summary>
    public int Order => Starts.Length - 1;

    /// <summary>Start of each column; n + 1 values.</summary>
    public int[] Starts { get; }

    /// <summary>Row of each entry.</summary>
    public int[] Rows { get; }

    /// <summary>Value of each entry.</summary>
    public double[] Values { get; }

    /// <summary>y = A x.</summary>
    public double[] Times(ReadOnlySpan<double> x)
    {
        var y = new double[Order];
        for (var j = 0; j < Order; j++)
        {
            for (var k = Starts[j]; k < Starts[j + 1]; k++)
            {
                y[Rows[k]] += Values[k] * x[j];
                if (Rows[k] != j) y[j] += Values[k] * x[Rows[k]];
            }
        }

        return y;
    }

    /// <summary>The whole pattern by columns, without the diagonal: starts and neighbours, ascending.</summary>
    public (int[] Starts, int[] Neighbours) Adjacency()
    {
        var starts = new int[Order + 1];
        for (var j = 0; j < Order; j++)
        {
            for (var k = Starts[j]; k < Starts[j + 1]; k++)
            {
                if (Rows[k] == j) continue;
                starts[j + 1]++;
                starts[Rows[k] + 1]++;
            }
        }

        for (var j = 0; j < Order; j++) starts[j + 1] += starts[j];
        var next = starts[..^1];
        var neighbours = new int[starts[^1]];
        // Columns ascending, so that each list is ascending: first those above a vertex, met as rows, then its own column.
        for (var j = 0; j < Order; j++)
        {
            for (var k = Starts[j]; k < Starts[j + 1]; k++)
            {
                if (Rows[k] != j) neighbours[next[Rows[k]]++] = j;
            }
        }

        for (var j = 0; j < Order; j++)
        {
            for (var k = Starts[j]; k < Starts[j + 1]; k++)
            {
                if (Rows[k] != j) neighbours[next[j]++] = Rows[k];
            }
        }

        return (starts, neighbours);
    }
}
