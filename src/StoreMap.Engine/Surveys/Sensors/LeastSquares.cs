namespace StoreMap.Surveys;

/// <summary>Nonlinear least squares with bounds, by the method of Levenberg and Marquardt (Marquardt, SIAM J. Appl. Math. 11 (1963) 431)
/// with derivatives by central differences.</summary>
internal static class LeastSquares
{
    private const int MostSteps = 60;

    /// <summary>A minimum.</summary>
    /// <param name="Parameters">Where it lies (P).</param>
    /// <param name="SumOfSquares">Its value.</param>
    /// <param name="Residuals">What is left (N).</param>
    /// <param name="Jacobian">Derivatives of the residuals there (N by P).</param>
    internal sealed record Result(double[] Parameters, double SumOfSquares, double[] Residuals, double[,] Jacobian)
    {
        /// <summary>Standard deviations of the parameters (P): s² (JᵀJ)⁻¹ with s² at least the given variance, widened for residuals that
        /// hang together, as rounding errors of a slow log do: factor (1 + r)/(1 − r), r their correlation at lag one (Box, Jenkins).</summary>
        public double[] Deviations(double leastVariance)
        {
            int n = Residuals.Length, p = Parameters.Length;
            double lagged = 0, square = 0;
            for (var i = 0; i < n; i++)
            {
                square += Residuals[i] * Residuals[i];
                if (i > 0) lagged += Residuals[i] * Residuals[i - 1];
            }

            var r = square > 0 ? Math.Clamp(lagged / square, 0, 0.95) : 0;
            var variance = Math.Max(leastVariance, square / Math.Max(1, n - p)) * (1 + r) / (1 - r);
            var inverse = Invert(Normal(Jacobian, n, p));
            var deviations = new double[p];
            for (var k = 0; k < p; k++) deviations[k] = Math.Sqrt(variance * inverse[k, k]);
            return deviations;
        }
    }

    /// <summary>Finds a minimum near a start.</summary>
    /// <param name="start">Parameters to begin with (P).</param>
    /// <param name="low">Lower bounds (P).</param>
    /// <param name="high">Upper bounds (P).</param>
    /// <param name="residuals">Gives the residuals (N) of parameters.</param>
    public static Result Fit(double[] start, double[] low, double[] high, Func<double[], double[]> residuals)
    {
        var p = Clamp(start, low, high);
        var r = residuals(p);
        var sum = Square(r);
        var damping = 1e-3;
        var jacobian = Derivatives(p, low, high, residuals, r.Length);
        for (var step = 0; step < MostSteps; step++)
        {
            var next = Clamp(Step(p, r, jacobian, damping), low, high);
            var nextResiduals = residuals(next);
            var nextSum = Square(nextResiduals);
            if (nextSum < sum)
            {
                var gain = sum - nextSum;
                (p, r, sum) = (next, nextResiduals, nextSum);
                damping = Math.Max(1e-12, damping * 0.2);
                jacobian = Derivatives(p, low, high, residuals, r.Length);
                if (gain < 1e-12 * sum) break;
            }
            else
            {
                damping *= 5;
                if (damping > 1e10) break;
            }
        }

        return new Result(p, sum, r, jacobian);
    }

    private static double[] Clamp(double[] p, double[] low, double[] high) =>
        [.. p.Select((v, i) => Math.Clamp(v, low[i], high[i]))];

    private static double Square(double[] r) => r.Sum(v => v * v);

    private static double[,] Derivatives(double[] p, double[] low, double[] high, Func<double[], double[]> residuals, int n)
    {
        var jacobian = new double[n, p.Length];
        for (var k = 0; k < p.Length; k++)
        {
            var h = 1e-4 * Math.Max(1, Math.Abs(p[k]));
            double[] up = [.. p], down = [.. p];
            up[k] = Math.Min(high[k], p[k] + h);
            down[k] = Math.Max(low[k], p[k] - h);
            double[] a = residuals(up), b = residuals(down);
            for (var i = 0; i < n; i++) jacobian[i, k] = (a[i] - b[i]) / (up[k] - down[k]);
        }

        return jacobian;
    }

    private static double[,] Normal(double[,] jacobian, int n, int p)
    {
        var normal = new double[p, p];
        for (var i = 0; i < n; i++)
        {
            for (var a = 0; a < p; a++)
            {
                for (var b = 0; b <= a; b++) normal[a, b] += jacobian[i, a] * jacobian[i, b];
            }
        }

        for (var a = 0; a < p; a++)
        {
            for (var b = a + 1; b < p; b++) normal[a, b] = normal[b, a];
        }

        return normal;
    }

    private static double[] Step(double[] p, double[] r, double[,] jacobian, double damping)
    {
        int n = r.Length, m = p.Length;
        var normal = Normal(jacobian, n, m);
        var slope = new double[m];
        for (var k = 0; k < m; k++)
        {
            for (var i = 0; i < n; i++) slope[k] += jacobian[i, k] * r[i];
            normal[k, k] += (damping * normal[k, k]) + 1e-12;
        }

        var inverse = Invert(normal);
        var next = (double[])p.Clone();
        for (var a = 0; a < m; a++)
        {
            for (var b = 0; b < m; b++) next[a] -= inverse[a, b] * slope[b];
        }

        return next;
    }

    /// <summary>Inverse of a small positive definite matrix by Gauss–Jordan with pivoting; a vanishing pivot is held off zero, so that a
    /// parameter the data say nothing of gets a huge variance.</summary>
    internal static double[,] Invert(double[,] matrix)
    {
        var n = matrix.GetLength(0);
        var a = (double[,])matrix.Clone();
        var inverse = new double[n, n];
        for (var i = 0; i < n; i++) inverse[i, i] = 1;
        for (var c = 0; c < n; c++)
        {
            var pivot = c;
            for (var r = c + 1; r < n; r++)
            {
                if (Math.Abs(a[r, c]) > Math.Abs(a[pivot, c])) pivot = r;
            }

            for (var k = 0; k < n; k++)
            {
                (a[c, k], a[pivot, k]) = (a[pivot, k], a[c, k]);
                (inverse[c, k], inverse[pivot, k]) = (inverse[pivot, k], inverse[c, k]);
            }

            var d = Math.Abs(a[c, c]) < 1e-14 ? 1e-14 : a[c, c];
            for (var k = 0; k < n; k++)
            {
                a[c, k] /= d;
                inverse[c, k] /= d;
            }

            for (var r = 0; r < n; r++)
            {
                if (r == c) continue;
                var f = a[r, c];
                for (var k = 0; k < n; k++)
                {
                    a[r, k] -= f * a[c, k];
                    inverse[r, k] -= f * inverse[c, k];
                }
            }
        }

        return inverse;
    }
}
