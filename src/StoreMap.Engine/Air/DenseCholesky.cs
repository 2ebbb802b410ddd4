using System.Runtime.CompilerServices;

namespace StoreMap.Air;

/// <summary>Dense steps of the factorisation, on column-major blocks.</summary>
internal static class DenseCholesky
{
    private const int Block = 32;

    /// <summary>Factors the first columns of a symmetric block: rows of the block below them become L.</summary>
    /// <param name="panel">Column-major, <paramref name="rows"/> by <paramref name="columns"/>; the upper triangle is not looked at.</param>
    /// <param name="rows">Rows, at least <paramref name="columns"/>.</param>
    /// <param name="columns">Columns to factor.</param>
    /// <param name="work">At least PackedLength(rows, 32) values.</param>
    /// <returns>False when a pivot is not positive.</returns>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static bool FactorPanel(Span<double> panel, int rows, int columns, double[] work)
    {
        for (var start = 0; start < columns; start += Block)
        {
            var end = Math.Min(columns, start + Block);
            for (var p = start; p < end; p++)
            {
                var pivot = panel[(p * rows) + p];
                if (!(pivot > 0)) return false;
                var root = Math.Sqrt(pivot);
                var column = panel.Slice((p * rows) + p, rows - p);
                column[0] = root;
                for (var i = 1; i < column.Length; i++) column[i] /= root;
                for (var q = p + 1; q < end; q++)
                    DenseTiles.Subtract(column[q - p], column[(q - p)..], panel.Slice((q * rows) + q, rows - q));
            }

            if (end == columns) break;
            DenseTiles.PackRows(panel[((start * rows) + end)..], rows, rows - end, end - start, work);
            DenseTiles.Subtract(work, work, rows - end, columns - end, end - start, panel[((end * rows) + end)..], rows, lower: true);
        }

        return true;
    }

    /// <summary>Length of the work array that <see cref="FactorPanel"/> needs.</summary>
    public static int WorkLength(int rows) => DenseTiles.PackedLength(rows, Block);
}
