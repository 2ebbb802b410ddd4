using System.Runtime.CompilerServices;

namespace StoreMap.Air;

/// <summary>The diagonal of the inverse of a factored matrix: the marginal variances of a Gaussian field with that precision.</summary>
/// <remarks>Source: Takahashi, Fagan and Chen, Formation of a sparse bus impedance matrix, 1973; by supernodes: Lin et al., SelInv,
/// ACM Trans. Math. Software 37, 2011. From the root down, with Y = L₂₁ L₁₁⁻¹: Z₂₁ = −Z₂₂ Y and Z₁₁ = (L₁₁ L₁₁ᵀ)⁻¹ − Yᵀ Z₂₁.</remarks>
internal sealed class SelectedInverse
{
    private const int Block = 32;
    private readonly SparseCholesky factor;
    private readonly Supernodes nodes;
    private readonly double[] diagonal;
    private readonly Stack<(int Node, double[] Inverse)> open = new();
    private readonly Stack<double[]> spare = new();
    private double[] packedInverse = [];
    private double[] y = [];
    private double[] packedRows = [];
    private double[] packedColumns = [];
    private double[] packedSmall = [];
    private double[] side = [];
    private double[] corner = [];

    private SelectedInverse(SparseCholesky factor)
    {
        (this.factor, nodes) = (factor, factor.Nodes);
        diagonal = new double[nodes.Order.Length];
    }

    /// <summary>Finds the diagonal of A⁻¹.</summary>
    /// <param name="factor">A complete factor of A.</param>
    /// <returns>One value per unknown.</returns>
    public static double[] Diagonal(SparseCholesky factor)
    {
        var work = new SelectedInverse(factor);
        for (var s = work.nodes.Count - 1; s >= 0; s--) work.Visit(s);
        return work.diagonal;
    }

    private void Visit(int s)
    {
        var (width, below) = (nodes.Width(s), nodes.Below(s));
        var size = width + below;
        while (open.Count > 0 && open.Peek().Node != nodes.Parent[s]) spare.Push(open.Pop().Inverse);
        var parent = below > 0 ? open.Peek().Inverse : [];
        var panel = factor.Panel(s);
        Grow(ref corner, width * width);
        InverseOfProduct(panel, size, width);
        if (below > 0)
        {
            GatherParent(s, parent);
            SolveSide(panel, size, width, below);
            DenseTiles.PackColumns(y, below, below, width, Grown(ref packedColumns, DenseTiles.PackedLength(width, below)));
            Array.Clear(Grown(ref side, below * width), 0, below * width);
            DenseTiles.Subtract(packedInverse, packedColumns, below, width, below, side, below, lower: false);
            SubtractCorner(width, below);
        }

        for (var j = 0; j < width; j++) diagonal[nodes.Order[nodes.First[s] + j]] = corner[(j * width) + j];
        if (nodes.HasChildren[s]) Keep(s, parent, width, below);
    }

    // corner = (L11 L11ᵀ)⁻¹ = Wᵀ W with W = L11⁻¹; lower triangle.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void InverseOfProduct(Span<double> panel, int size, int width)
    {
        var w = Grown(ref side, width * width);
        Array.Clear(w, 0, width * width);
        for (var c = 0; c < width; c++)
        {
            var column = w.AsSpan(c * width, width);
            column[c] = 1;
            for (var p = c; p < width; p++)
            {
                var value = column[p] /= panel[(p * size) + p];
                if (value != 0) DenseTiles.Subtract(value, panel.Slice((p * size) + p + 1, width - p - 1), column[(p + 1)..]);
            }
        }

        DenseTiles.PackColumns(w, width, width, width, Grown(ref packedColumns, DenseTiles.PackedLength(width, width)));
        Array.Clear(corner, 0, width * width);
        DenseTiles.Subtract(packedColumns, packedColumns, width, width, width, corner, width, lower: true);
        for (var i = 0; i < width * width; i++) corner[i] = -corner[i];
    }

    // Z22 from the parent's inverse, packed.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void GatherParent(int s, double[] parent)
    {
        var below = nodes.Below(s);
        var stride = nodes.Width(nodes.Parent[s]) + nodes.Below(nodes.Parent[s]);
        var at = nodes.Relative.AsSpan(nodes.RowStarts[s], below);
        var packed = Grown(ref packedInverse, DenseTiles.PackedLength(below, below)).AsSpan();
        for (var i = 0; i < below; i += DenseTiles.Side)
        {
            var rows = at.Slice(i, Math.Min(DenseTiles.Side, below - i));
            var block = packed.Slice(i * below, DenseTiles.Side * below);
            for (var p = 0; p < below; p++)
            {
                var column = parent.AsSpan(at[p] * stride, stride);
                for (var r = 0; r < rows.Length; r++) block[(p * DenseTiles.Side) + r] = column[rows[r]];
                for (var r = rows.Length; r < DenseTiles.Side; r++) block[(p * DenseTiles.Side) + r] = 0;
            }
        }
    }

    // y = L21 L11⁻¹, by blocks of columns from the last.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void SolveSide(Span<double> panel, int size, int width, int below)
    {
        Grow(ref y, below * width);
        for (var j = 0; j < width; j++) panel.Slice((j * size) + width, below).CopyTo(y.AsSpan(j * below, below));
        for (var end = width; end > 0; end = (end - 1) / Block * Block)
        {
            var start = (end - 1) / Block * Block;
            if (end < width)
            {
                var later = width - end;
                DenseTiles.PackRows(y.AsSpan(end * below), below, below, later, Grown(ref packedRows, DenseTiles.PackedLength(below, later)));
                DenseTiles.PackColumns(
                    panel[((start * size) + end)..], size, later, end - start, Grown(ref packedSmall, DenseTiles.PackedLength(end - start, later)));
                DenseTiles.Subtract(packedRows, packedSmall, below, end - start, later, y.AsSpan(start * below), below, lower: false);
            }

            for (var q = end - 1; q >= start; q--)
            {
                var column = y.AsSpan(q * below, below);
                for (var p = q + 1; p < end; p++) DenseTiles.Subtract(panel[(q * size) + p], y.AsSpan(p * below, below), column);
                var pivot = panel[(q * size) + q];
                for (var i = 0; i < below; i++) column[i] /= pivot;
            }
        }
    }

    // corner −= Yᵀ Z21; packedColumns still holds Y by columns.
    private void SubtractCorner(int width, int below)
    {
        DenseTiles.PackColumns(side, below, below, width, Grown(ref packedRows, DenseTiles.PackedLength(width, below)));
        DenseTiles.Subtract(packedColumns, packedRows, width, width, below, corner, width, lower: true);
    }

    // The whole symmetric inverse on the front, for the children.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Keep(int s, double[] parent, int width, int below)
    {
        var size = width + below;
        var inverse = spare.Count > 0 ? spare.Pop() : [];
        if (inverse.Length < size * size) inverse = new double[size * size];
        for (var j = 0; j < width; j++)
        {
            for (var i = j; i < width; i++) inverse[(j * size) + i] = inverse[(i * size) + j] = corner[(j * width) + i];
            for (var i = 0; i < below; i++) inverse[(j * size) + width + i] = inverse[((width + i) * size) + j] = side[(j * below) + i];
        }

        if (below > 0)
        {
            var stride = nodes.Width(nodes.Parent[s]) + nodes.Below(nodes.Parent[s]);
            var at = nodes.Relative.AsSpan(nodes.RowStarts[s], below);
            for (var j = 0; j < below; j++)
            {
                for (var i = 0; i < below; i++) inverse[((width + j) * size) + width + i] = parent[(at[j] * stride) + at[i]];
            }
        }

        open.Push((s, inverse));
    }

    private static double[] Grown(ref double[] array, int length)
    {
        Grow(ref array, length);
        return array;
    }

    private static void Grow(ref double[] array, int length)
    {
        if (array.Length < length) array = new double[Math.Max(length, 2 * array.Length)];
    }
}
