namespace StoreMap.Air;

/// <summary>The factor A = L Lᵀ of a sparse symmetric positive definite matrix.</summary>
/// <remarks>
/// Multifrontal by supernodes (Duff and Reid, ACM Trans. Math. Software 9, 1983; Liu, SIAM Review 34, 1992). Use:
/// <code>
/// var order = op.OrderFor(matrix);                  // or any permutation
/// var nodes = Supernodes.Of(matrix, order);         // pattern only: reuse it for other values
/// var factor = SparseCholesky.Factor(matrix, nodes);
/// double[] x = factor.Solve(b);
/// double[] variances = SelectedInverse.Diagonal(factor);
/// </code>
/// When the order was made with a trailing block of m unknowns, <see cref="SparseCholesky"/> stops before that block:
/// <see cref="Schur"/> is then what is left of A on those unknowns, the inverse of the block of A⁻¹. <see cref="Complete"/> adds to
/// its diagonal and finishes, as often as wanted, at the price of the small block only. Results are the same bits on every run.
/// </remarks>
internal sealed class SparseCholesky
{
    private readonly double[] values;
    private double logDeterminant;
    private bool complete;

    private SparseCholesky(Supernodes nodes, double[] values, double[] schur) => (Nodes, this.values, Schur) = (nodes, values, schur);

    /// <summary>The pattern.</summary>
    public Supernodes Nodes { get; }

    /// <summary>The trailing block before its own factorisation: m by m, column-major, lower triangle; empty without one.</summary>
    public double[] Schur { get; }

    /// <summary>Natural logarithm of the determinant of A (with what <see cref="Complete"/> added).</summary>
    public double LogDeterminant => complete ? logDeterminant : throw new InvalidOperationException("Complete the trailing block first.");

    /// <summary>Values of one supernode: column-major, width + rows below by width; the upper triangle is meaningless.</summary>
    internal Span<double> Panel(int s) => values.AsSpan(Nodes.PanelStarts[s], Nodes.PanelStarts[s + 1] - Nodes.PanelStarts[s]);

    /// <summary>Factors a matrix.</summary>
    /// <param name="matrix">Values; its pattern must be the one <paramref name="nodes"/> were found for.</param>
    /// <param name="nodes">The analysed pattern.</param>
    /// <param name="space">Memory to use; the factor made in it before must not be used any more. Null takes new memory.</param>
    /// <exception cref="ArithmeticException">The matrix is not positive definite.</exception>
    public static SparseCholesky Factor(SymmetricMatrix matrix, Supernodes nodes, FactorSpace? space = null)
    {
        space ??= new FactorSpace();
        var values = space.Cleared(nodes.PanelStarts[^1]);
        Scatter(matrix, nodes, values);
        var stack = new UpdateStack(nodes, space);
        var (work, packed) = (Array.Empty<double>(), Array.Empty<double>());
        var logDeterminant = 0.0;
        for (var s = 0; s < nodes.Count; s++)
        {
            var (width, below) = (nodes.Width(s), nodes.Below(s));
            var panel = values.AsSpan(nodes.PanelStarts[s], width * (width + below));
            stack.Gather(s, panel);
            if (nodes.Trailing > 0 && s == nodes.Count - 1) break;
            Grow(ref work, DenseCholesky.WorkLength(width + below));
            if (!DenseCholesky.FactorPanel(panel, width + below, width, work)) throw NotPositive();
            for (var j = 0; j < width; j++) logDeterminant += 2 * Math.Log(panel[(j * (width + below)) + j]);
            if (below == 0) continue;
            Grow(ref packed, DenseTiles.PackedLength(below, width));
            DenseTiles.PackRows(panel[width..], width + below, below, width, packed);
            DenseTiles.Subtract(packed, packed, below, below, width, stack.Own, below, lower: true);
            stack.Push(s);
        }

        var schur = nodes.Trailing > 0 ? values[nodes.PanelStarts[^2]..] : [];
        var factor = new SparseCholesky(nodes, values, schur) { logDeterminant = logDeterminant, complete = nodes.Trailing == 0 };
        factor.LogDeterminantBefore = logDeterminant;
        return factor;
    }

    /// <summary>Logarithm of the determinant of what was eliminated before the trailing block.</summary>
    public double LogDeterminantBefore { get; private set; }

    /// <summary>Adds to the trailing block's diagonal and factors it; may be called again with other values.</summary>
    /// <param name="added">One value per trailing unknown, in their order.</param>
    /// <exception cref="ArithmeticException">The block is not positive definite.</exception>
    public void Complete(ReadOnlySpan<double> added)
    {
        var m = Nodes.Trailing;
        var panel = Panel(Nodes.Count - 1);
        Schur.CopyTo(panel);
        for (var i = 0; i < m; i++) panel[(i * m) + i] += added[i];
        if (!DenseCholesky.FactorPanel(panel, m, m, new double[DenseCholesky.WorkLength(m)])) throw NotPositive();
        logDeterminant = LogDeterminantBefore;
        for (var j = 0; j < m; j++) logDeterminant += 2 * Math.Log(panel[(j * m) + j]);
        complete = true;
    }

    /// <summary>Solves A x = b.</summary>
    public double[] Solve(ReadOnlySpan<double> b)
    {
        if (!complete) throw new InvalidOperationException("Complete the trailing block first.");
        var x = new double[b.Length];
        for (var i = 0; i < x.Length; i++) x[i] = b[Nodes.Order[i]];
        for (var s = 0; s < Nodes.Count; s++) Forward(s, x);
        for (var s = Nodes.Count - 1; s >= 0; s--) Backward(s, x);
        var result = new double[b.Length];
        for (var i = 0; i < x.Length; i++) result[Nodes.Order[i]] = x[i];
        return result;
    }

    private void Forward(int s, double[] x)
    {
        var (first, width, below, rows) = (Nodes.First[s], Nodes.Width(s), Nodes.Below(s), Nodes.RowStarts[s]);
        var panel = Panel(s);
        for (var j = 0; j < width; j++)
        {
            var column = panel.Slice((j * (width + below)) + j, width + below - j);
            var value = x[first + j] /= column[0];
            if (value == 0) continue;
            for (var i = 1; i < width - j; i++) x[first + j + i] -= value * column[i];
            for (var i = 0; i < below; i++) x[Nodes.Rows[rows + i]] -= value * column[width - j + i];
        }
    }

    private void Backward(int s, double[] x)
    {
        var (first, width, below, rows) = (Nodes.First[s], Nodes.Width(s), Nodes.Below(s), Nodes.RowStarts[s]);
        var panel = Panel(s);
        for (var j = width - 1; j >= 0; j--)
        {
            var column = panel.Slice((j * (width + below)) + j, width + below - j);
            var sum = x[first + j];
            for (var i = 1; i < width - j; i++) sum -= column[i] * x[first + j + i];
            for (var i = 0; i < below; i++) sum -= column[width - j + i] * x[Nodes.Rows[rows + i]];
            x[first + j] = sum / column[0];
        }
    }

    private static void Scatter(SymmetricMatrix matrix, Supernodes nodes, double[] values)
    {
        var place = new int[matrix.Order];
        for (var s = 0; s < nodes.Count; s++)
        {
            var (first, width, below) = (nodes.First[s], nodes.Width(s), nodes.Below(s));
            for (var j = 0; j < width; j++) place[first + j] = j;
            for (var k = nodes.RowStarts[s]; k < nodes.RowStarts[s + 1]; k++) place[nodes.Rows[k]] = width + k - nodes.RowStarts[s];
            for (var j = first; j < first + width; j++)
            {
                var column = nodes.Order[j];
                for (var k = matrix.Starts[column]; k < matrix.Starts[column + 1]; k++)
                {
                    // An entry belongs to the earlier of its two positions; the later one may be its column here.
                    var other = nodes.Position[matrix.Rows[k]];
                    if (other >= j) values[nodes.PanelStarts[s] + ((j - first) * (width + below)) + place[other]] += matrix.Values[k];
                }
            }
        }

        ScatterUpper(matrix, nodes, values);
    }

    // Entries whose row comes before their column in the order.
    private static void ScatterUpper(SymmetricMatrix matrix, Supernodes nodes, double[] values)
    {
        var superOf = new int[matrix.Order];
        for (var s = 0; s < nodes.Count; s++) Array.Fill(superOf, s, nodes.First[s], nodes.Width(s));
        for (var column = 0; column < matrix.Order; column++)
        {
            for (var k = matrix.Starts[column]; k < matrix.Starts[column + 1]; k++)
            {
                var (j, i) = (nodes.Position[matrix.Rows[k]], nodes.Position[column]);
                if (j >= i) continue;
                var s = superOf[j];
                var (width, below) = (nodes.Width(s), nodes.Below(s));
                var place = i < nodes.First[s + 1]
                    ? i - nodes.First[s]
                    : width + Array.BinarySearch(nodes.Rows, nodes.RowStarts[s], below, i) - nodes.RowStarts[s];
                values[nodes.PanelStarts[s] + ((j - nodes.First[s]) * (width + below)) + place] += matrix.Values[k];
            }
        }
    }

    private static void Grow(ref double[] array, int length)
    {
        if (array.Length < length) array = new double[Math.Max(length, 2 * array.Length)];
    }

    private static ArithmeticException NotPositive() => new("The matrix is not positive definite.");
}
