namespace StoreMap.Tests.Oracles;

/// <summary>Plain dense linear algebra: Gauss–Jordan with pivoting, slow and simple.</summary>
internal static class DenseOracle
{
    /// <summary>Inverse and log |det|.</summary>
    public static (double[,] Inverse, double LogDeterminant) Invert(double[,] matrix)
    {
        var n = matrix.GetLength(0);
        var a = (double[,])matrix.Clone();
        var inverse = new double[n, n];
        for (var i = 0; i < n; i++) inverse[i, i] = 1;
        var log = 0.0;
        for (var p = 0; p < n; p++)
        {
            var best = p;
            for (var i = p + 1; i < n; i++)
            {
                if (Math.Abs(a[i, p]) > Math.Abs(a[best, p])) best = i;
            }

            for (var j = 0; j < n; j++)
            {
                (a[p, j], a[best, j]) = (a[best, j], a[p, j]);
                (inverse[p, j], inverse[best, j]) = (inverse[best, j], inverse[p, j]);
            }

            var pivot = a[p, p];
            log += Math.Log(Math.Abs(pivot));
            for (var j = 0; j < n; j++)
            {
                a[p, j] /= pivot;
                inverse[p, j] /= pivot;
            }

            for (var i = 0; i < n; i++)
            {
                var factor = a[i, p];
                if (i == p || factor == 0) continue;
                for (var j = 0; j < n; j++)
                {
                    a[i, j] -= factor * a[p, j];
                    inverse[i, j] -= factor * inverse[p, j];
                }
            }
        }

        return (inverse, log);
    }

    /// <summary>y = A x.</summary>
    public static double[] Times(double[,] a, double[] x) =>
        [.. Enumerable.Range(0, a.GetLength(0)).Select(i => Enumerable.Range(0, x.Length).Sum(j => a[i, j] * x[j]))];

    /// <summary>Eigenvalues of a symmetric matrix, ascending, by Jacobi rotations.</summary>
    public static double[] Eigenvalues(double[,] symmetric)
    {
        var n = symmetric.GetLength(0);
        var a = (double[,])symmetric.Clone();
        for (var sweep = 0; sweep < 60; sweep++)
        {
            for (var p = 0; p < n; p++)
            {
                for (var q = p + 1; q < n; q++)
                {
                    if (Math.Abs(a[p, q]) < 1e-300) continue;
                    var angle = 0.5 * Math.Atan2(2 * a[p, q], a[q, q] - a[p, p]);
                    var (sin, cos) = Math.SinCos(angle);
                    for (var k = 0; k < n; k++) (a[k, p], a[k, q]) = ((cos * a[k, p]) - (sin * a[k, q]), (sin * a[k, p]) + (cos * a[k, q]));
                    for (var k = 0; k < n; k++) (a[p, k], a[q, k]) = ((cos * a[p, k]) - (sin * a[q, k]), (sin * a[p, k]) + (cos * a[q, k]));
                }
            }
        }

        return [.. Enumerable.Range(0, n).Select(i => a[i, i]).Order()];
    }
}
