namespace StoreMap.Surveys;

/// <summary>Root-free Cholesky factor L D Lᵀ of a symmetric positive definite band matrix, its solves and the band of its inverse.</summary>
/// <remarks>Bands are arrays (M + 1 by N): entry [b, i] is the element in row i + b, column i. Inverse: Takahashi, Fagan, Chin 1973.</remarks>
internal sealed class BandedCholesky
{
    private readonly int width;
    private readonly int n;
    private readonly double[,] factor;

    /// <summary>Factors a matrix.</summary>
    /// <param name="bands">Its lower bands (M + 1 by N); kept and overwritten.</param>
    public BandedCholesky(double[,] bands)
    {
        factor = bands;
        width = bands.GetLength(0) - 1;
        n = bands.GetLength(1);
        for (var j = 0; j < n; j++)
        {
            var diagonal = factor[0, j];
            for (var b = 1; b <= Math.Min(width, n - 1 - j); b++)
            {
                var multiplier = factor[b, j] / diagonal;
                for (var c = b; c <= Math.Min(width, n - 1 - j); c++) factor[c - b, j + b] -= multiplier * factor[c, j];
            }

            for (var b = 1; b <= width; b++) factor[b, j] /= diagonal;
        }
    }

    /// <summary>Logarithm of the determinant.</summary>
    public double LogDeterminant
    {
        get
        {
            var sum = 0.0;
            for (var j = 0; j < n; j++) sum += Math.Log(factor[0, j]);
            return sum;
        }
    }

    /// <summary>Solves in place.</summary>
    public double[] Solve(double[] right)
    {
        for (var j = 0; j < n; j++)
        {
            for (var b = 1; b <= Math.Min(width, n - 1 - j); b++) right[j + b] -= factor[b, j] * right[j];
        }

        for (var j = n - 1; j >= 0; j--)
        {
            right[j] /= factor[0, j];
            for (var b = 1; b <= Math.Min(width, n - 1 - j); b++) right[j] -= factor[b, j] * right[j + b];
        }

        return right;
    }

    /// <summary>The lower bands of the inverse (M + 1 by N).</summary>
    public double[,] InverseBands()
    {
        var inverse = new double[width + 1, n];
        for (var j = n - 1; j >= 0; j--)
        {
            var reach = Math.Min(width, n - 1 - j);
            for (var b = reach; b >= 0; b--)
            {
                var value = b == 0 ? 1 / factor[0, j] : 0;
                for (var c = 1; c <= reach; c++)
                {
                    var (low, high) = (Math.Min(b, c), Math.Max(b, c));
                    value -= factor[c, j] * inverse[high - low, j + low];
                }

                inverse[b, j] = value;
            }
        }

        return inverse;
    }
}
