using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace StoreMap.Air;

/// <summary>Products of small dense blocks, in tiles of eight by eight.</summary>
/// <remarks>Vector lanes hold different results and each result is summed in one fixed order, multiplication and addition rounded
/// separately, so the bits do not depend on the machine's vector width or on fused instructions. Compiled at full speed at once: a map is
/// often the only one of its run, and half its time would go by before the usual tiers had warmed up.</remarks>
internal static class DenseTiles
{
    /// <summary>Side of a tile.</summary>
    public const int Side = 8;

    /// <summary>Length of the packed form of so many rows of so many terms.</summary>
    public static int PackedLength(int rows, int terms) => (rows + Side - 1) / Side * Side * terms;

    /// <summary>Packs rows of a column-major block: eight rows together, term by term, filled up with zeros.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void PackRows(ReadOnlySpan<double> source, int stride, int rows, int terms, Span<double> packed)
    {
        for (int i = 0, at = 0; i < rows; i += Side)
        {
            var height = Math.Min(Side, rows - i);
            for (var p = 0; p < terms; p++, at += Side)
            {
                var column = source.Slice((p * stride) + i, height);
                column.CopyTo(packed[at..]);
                if (height < Side) packed.Slice(at + height, Side - height).Clear();
            }
        }
    }

    /// <summary>Packs columns of a column-major block as if they were rows of its transpose.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void PackColumns(ReadOnlySpan<double> source, int stride, int terms, int columns, Span<double> packed)
    {
        for (var j = 0; j < columns; j += Side)
        {
            var block = packed[(j * terms)..];
            for (var c = 0; c < Side; c++)
            {
                if (j + c < columns)
                {
                    var column = source.Slice((j + c) * stride, terms);
                    for (var p = 0; p < terms; p++) block[(p * Side) + c] = column[p];
                }
                else
                {
                    for (var p = 0; p < terms; p++) block[(p * Side) + c] = 0;
                }
            }
        }
    }

    /// <summary>C −= A Bᵀ for packed A (rows) and B (columns), C column-major.</summary>
    /// <param name="a">Packed rows of A.</param>
    /// <param name="b">Packed rows of B; may be the same as A.</param>
    /// <param name="rows">Rows of A and C.</param>
    /// <param name="columns">Rows of B, columns of C.</param>
    /// <param name="terms">Columns of A and B.</param>
    /// <param name="c">C; entry (i, j) at j * stride + i.</param>
    /// <param name="stride">Distance between columns of C.</param>
    /// <param name="lower">True to touch only entries with row ≥ column.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Subtract(
        ReadOnlySpan<double> a, ReadOnlySpan<double> b, int rows, int columns, int terms, Span<double> c, int stride, bool lower)
    {
        Span<double> tile = stackalloc double[Side * Side];
        for (var j = 0; j < columns; j += Side)
        {
            ref var right = ref MemoryMarshal.GetReference(b[(j * terms)..]);
            for (var i = lower ? j : 0; i < rows; i += Side)
            {
                ref var left = ref MemoryMarshal.GetReference(a[(i * terms)..]);
                var whole = i + Side <= rows && j + Side <= columns && !(lower && i == j);
                if (whole)
                {
                    SubtractHalf(ref left, ref right, terms, ref c[(j * stride) + i], stride);
                    SubtractHalf(ref left, ref Unsafe.Add(ref right, 4), terms, ref c[((j + 4) * stride) + i], stride);
                    continue;
                }

                tile.Clear();
                SubtractHalf(ref left, ref right, terms, ref tile[0], Side);
                SubtractHalf(ref left, ref Unsafe.Add(ref right, 4), terms, ref tile[4 * Side], Side);
                for (var q = 0; q < Side && j + q < columns; q++)
                {
                    for (var p = lower && i == j ? q : 0; p < Side && i + p < rows; p++) c[((j + q) * stride) + i + p] += tile[(q * Side) + p];
                }
            }
        }
    }

    /// <summary>y −= factor · x.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static void Subtract(double factor, ReadOnlySpan<double> x, Span<double> y)
    {
        ref var from = ref MemoryMarshal.GetReference(x);
        ref var to = ref MemoryMarshal.GetReference(y);
        var i = 0;
        var f = Vector256.Create(factor);
        for (; i + 4 <= x.Length && Vector256.IsHardwareAccelerated; i += 4)
        {
            ref var place = ref Unsafe.Add(ref to, i);
            (Vector256.LoadUnsafe(ref place) - (f * Vector256.LoadUnsafe(ref Unsafe.Add(ref from, i)))).StoreUnsafe(ref place);
        }

        var half = Vector128.Create(factor);
        for (; i + 2 <= x.Length; i += 2)
        {
            ref var place = ref Unsafe.Add(ref to, i);
            (Vector128.LoadUnsafe(ref place) - (half * Vector128.LoadUnsafe(ref Unsafe.Add(ref from, i)))).StoreUnsafe(ref place);
        }

        for (; i < x.Length; i++) y[i] -= factor * x[i];
    }

    // Eight rows by four columns.
    private static void SubtractHalf(ref double a, ref double b, int terms, ref double c, int stride)
    {
        if (Vector256.IsHardwareAccelerated)
        {
            SubtractWide(ref a, ref b, terms, ref c, stride);
            return;
        }

        SubtractNarrow(ref a, ref b, terms, ref c, stride);
        SubtractNarrow(ref Unsafe.Add(ref a, 4), ref b, terms, ref Unsafe.Add(ref c, 4), stride);
    }

    /// <summary>Four rows by four columns, for processors with vectors of two numbers, as a browser has them; the same bits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void SubtractNarrow(ref double a, ref double b, int terms, ref double c, int stride)
    {
        Vector128<double> c00 = default, c10 = default, c01 = default, c11 = default, c02 = default, c12 = default, c03 = default, c13 = default;
        for (var p = 0; p < terms; p++)
        {
            var (low, high) = (Vector128.LoadUnsafe(ref a), Vector128.LoadUnsafe(ref Unsafe.Add(ref a, 2)));
            var f = Vector128.Create(b);
            c00 += low * f;
            c10 += high * f;
            f = Vector128.Create(Unsafe.Add(ref b, 1));
            c01 += low * f;
            c11 += high * f;
            f = Vector128.Create(Unsafe.Add(ref b, 2));
            c02 += low * f;
            c12 += high * f;
            f = Vector128.Create(Unsafe.Add(ref b, 3));
            c03 += low * f;
            c13 += high * f;
            a = ref Unsafe.Add(ref a, Side);
            b = ref Unsafe.Add(ref b, Side);
        }

        Store(c00, c10, ref c);
        Store(c01, c11, ref Unsafe.Add(ref c, stride));
        Store(c02, c12, ref Unsafe.Add(ref c, 2 * stride));
        Store(c03, c13, ref Unsafe.Add(ref c, 3 * stride));
    }

    /// <summary>Eight rows by four columns, for processors with vectors of four numbers.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static void SubtractWide(ref double a, ref double b, int terms, ref double c, int stride)
    {
        Vector256<double> c00 = default, c10 = default, c01 = default, c11 = default, c02 = default, c12 = default, c03 = default, c13 = default;
        for (var p = 0; p < terms; p++)
        {
            var (low, high) = (Vector256.LoadUnsafe(ref a), Vector256.LoadUnsafe(ref Unsafe.Add(ref a, 4)));
            var f = Vector256.Create(b);
            c00 += low * f;
            c10 += high * f;
            f = Vector256.Create(Unsafe.Add(ref b, 1));
            c01 += low * f;
            c11 += high * f;
            f = Vector256.Create(Unsafe.Add(ref b, 2));
            c02 += low * f;
            c12 += high * f;
            f = Vector256.Create(Unsafe.Add(ref b, 3));
            c03 += low * f;
            c13 += high * f;
            a = ref Unsafe.Add(ref a, Side);
            b = ref Unsafe.Add(ref b, Side);
        }

        Store(c00, c10, ref c);
        Store(c01, c11, ref Unsafe.Add(ref c, stride));
        Store(c02, c12, ref Unsafe.Add(ref c, 2 * stride));
        Store(c03, c13, ref Unsafe.Add(ref c, 3 * stride));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector256<double> low, Vector256<double> high, ref double c)
    {
        (Vector256.LoadUnsafe(ref c) - low).StoreUnsafe(ref c);
        (Vector256.LoadUnsafe(ref Unsafe.Add(ref c, 4)) - high).StoreUnsafe(ref Unsafe.Add(ref c, 4));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Store(Vector128<double> low, Vector128<double> high, ref double c)
    {
        (Vector128.LoadUnsafe(ref c) - low).StoreUnsafe(ref c);
        (Vector128.LoadUnsafe(ref Unsafe.Add(ref c, 2)) - high).StoreUnsafe(ref Unsafe.Add(ref c, 2));
    }
}
