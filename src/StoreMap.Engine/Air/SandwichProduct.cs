namespace StoreMap.Air;

/// <summary>The product K W⁻¹ K of a sparse symmetric K with a diagonal W.</summary>
internal static class SandwichProduct
{
    /// <summary>Multiplies.</summary>
    /// <param name="k">Symmetric K of order n.</param>
    /// <param name="weights">Diagonal of W, n positive values.</param>
    public static SymmetricMatrix Of(SymmetricMatrix k, ReadOnlySpan<double> weights)
    {
        var n = k.Order;
        var (starts, columns, values) = Rows(k);
        var productStarts = new int[n + 1];
        var productRows = new List<int>(7 * n);
        var productValues = new List<double>(7 * n);
        var sum = new double[n];
        var mark = new int[n];
        Array.Fill(mark, -1);
        var touched = new int[n];
        for (var j = 0; j < n; j++)
        {
            var count = 0;
            for (var a = starts[j]; a < starts[j + 1]; a++)
            {
                var m = columns[a];
                var factor = values[a] / weights[m];
                for (var b = starts[m]; b < starts[m + 1]; b++)
                {
                    var i = columns[b];
                    if (i < j) continue;
                    if (mark[i] != j)
                    {
                        mark[i] = j;
                        sum[i] = 0;
                        // Kept in order as they come: they are few and nearly so.
                        var at = count++;
                        for (; at > 0 && touched[at - 1] > i; at--) touched[at] = touched[at - 1];
                        touched[at] = i;
                    }

                    sum[i] += factor * values[b];
                }
            }

            for (var c = 0; c < count; c++)
            {
                productRows.Add(touched[c]);
                productValues.Add(sum[touched[c]]);
            }

            productStarts[j + 1] = productRows.Count;
        }

        return new SymmetricMatrix(productStarts, [.. productRows], [.. productValues]);
    }

    // Both triangles by rows, columns ascending.
    private static (int[] Starts, int[] Columns, double[] Values) Rows(SymmetricMatrix k)
    {
        var n = k.Order;
        var starts = new int[n + 1];
        for (var j = 0; j < n; j++)
        {
            for (var e = k.Starts[j]; e < k.Starts[j + 1]; e++)
            {
                starts[k.Rows[e] + 1]++;
                if (k.Rows[e] != j) starts[j + 1]++;
            }
        }

        for (var j = 0; j < n; j++) starts[j + 1] += starts[j];
        var next = starts[..^1];
        var columns = new int[starts[^1]];
        var values = new double[starts[^1]];
        for (var lower = 0; lower < 2; lower++)
        {
            for (var j = 0; j < n; j++)
            {
                for (var e = k.Starts[j]; e < k.Starts[j + 1]; e++)
                {
                    var i = k.Rows[e];
                    if (lower == 1 && i == j) continue;
                    var (row, column) = lower == 0 ? (i, j) : (j, i);
                    columns[next[row]] = column;
                    values[next[row]++] = k.Values[e];
                }
            }
        }

        return (starts, columns, values);
    }
}
