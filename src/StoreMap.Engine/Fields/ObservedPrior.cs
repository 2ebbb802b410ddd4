using StoreMap.Air;

namespace StoreMap.Fields;

/// <summary>The prior of the log level between the cells with readings of one body of air: correlations, and the deviation of the raw
/// field there. Walls inflate the raw field's variance; dividing by its local deviation gives every cell the same prior spread.</summary>
internal sealed class ObservedPrior
{
    private ObservedPrior(double[] correlation, double[] deviation) => (Correlation, Deviation) = (correlation, deviation);

    /// <summary>Cells with readings.</summary>
    public int Count => Deviation.Length;

    /// <summary>Correlations: count by count, column-major, both triangles.</summary>
    public double[] Correlation { get; }

    /// <summary>Prior deviation of the raw field per cell with readings.</summary>
    public double[] Deviation { get; }

    /// <summary>From what a factorisation left on the cells with readings: their covariance is its inverse.</summary>
    public static ObservedPrior Of(SparseCholesky factor)
    {
        var m = factor.Nodes.Trailing;
        // Below the block stands a unit matrix, which the factorisation turns into L⁻ᵀ.
        var panel = new double[2 * m * m];
        for (var j = 0; j < m; j++)
        {
            factor.Schur.AsSpan(j * m, m).CopyTo(panel.AsSpan(j * 2 * m));
            panel[(j * 2 * m) + m + j] = 1;
        }

        if (!DenseCholesky.FactorPanel(panel, 2 * m, m, new double[DenseCholesky.WorkLength(2 * m)]))
            throw new ArithmeticException("The field's prior is not positive definite.");
        var packed = new double[DenseTiles.PackedLength(m, m)];
        DenseTiles.PackRows(panel.AsSpan(m), 2 * m, m, m, packed);
        var covariance = new double[m * m];
        DenseTiles.Subtract(packed, packed, m, m, m, covariance, m, lower: true);
        var deviation = new double[m];
        for (var i = 0; i < m; i++) deviation[i] = Math.Sqrt(-covariance[(i * m) + i]);
        for (var j = 0; j < m; j++)
        {
            covariance[(j * m) + j] = 1;
            for (var i = j + 1; i < m; i++)
                covariance[(j * m) + i] = covariance[(i * m) + j] = -covariance[(j * m) + i] / (deviation[i] * deviation[j]);
        }

        return new ObservedPrior(covariance, deviation);
    }
}
