using StoreMap.Air;

namespace StoreMap.Tests.Air;

/// <summary>Makes matrices for the tests.</summary>
internal static class Matrices
{
    /// <summary>A random sparse symmetric matrix with a dominant diagonal.</summary>
    public static SymmetricMatrix Random(int n, double density, int seed)
    {
        var random = new Random(seed);
        var dense = new double[n, n];
        for (var j = 0; j < n; j++)
        {
            dense[j, j] += 0.5 + random.NextDouble();
            for (var i = j + 1; i < n; i++)
            {
                if (random.NextDouble() > density) continue;
                var value = (2 * random.NextDouble()) - 1;
                dense[i, j] = value;
                dense[i, i] += Math.Abs(value);
                dense[j, j] += Math.Abs(value);
            }
        }

        return FromLower(dense);
    }

    /// <summary>Keeps the non-zeros of the lower triangle.</summary>
    public static SymmetricMatrix FromLower(double[,] dense)
    {
        var n = dense.GetLength(0);
        var (starts, rows, values) = (new int[n + 1], new List<int>(), new List<double>());
        for (var j = 0; j < n; j++)
        {
            for (var i = j; i < n; i++)
            {
                if (i > j && dense[i, j] == 0) continue;
                rows.Add(i);
                values.Add(dense[i, j]);
            }

            starts[j + 1] = rows.Count;
        }

        return new SymmetricMatrix(starts, [.. rows], [.. values]);
    }

    /// <summary>The full matrix.</summary>
    public static double[,] Dense(SymmetricMatrix matrix)
    {
        var dense = new double[matrix.Order, matrix.Order];
        for (var j = 0; j < matrix.Order; j++)
        {
            for (var k = matrix.Starts[j]; k < matrix.Starts[j + 1]; k++)
                dense[matrix.Rows[k], j] = dense[j, matrix.Rows[k]] = matrix.Values[k];
        }

        return dense;
    }

    /// <summary>A seeded permutation.</summary>
    public static int[] Shuffle(int n, int seed)
    {
        var order = Enumerable.Range(0, n).ToArray();
        new Random(seed).Shuffle(order);
        return order;
    }
}
