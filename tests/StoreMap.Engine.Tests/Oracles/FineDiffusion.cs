namespace StoreMap.Tests.Oracles;

/// <summary>Steady diffusion with loss in a hall with one wall and one doorway, on plain fine cells, by conjugate gradients.</summary>
internal static class FineDiffusion
{
    /// <summary>What is lost behind the wall when the strip before <paramref name="sourceEnd"/> gives one unit per square metre: solved with
    /// two cell sizes and extrapolated linearly, since jambs cost an error of the order of the cell.</summary>
    public static double LostBehindWall(double width, double height, double wall, double from, double to, double sourceEnd, double d, double k)
    {
        var (coarse, fine) = (Solve(width, height, wall, from, to, sourceEnd, d, k, 0.05), Solve(width, height, wall, from, to, sourceEnd, d, k, 0.025));
        return (2 * fine) - coarse;
    }

    private static double Solve(double width, double height, double wall, double from, double to, double sourceEnd, double d, double k, double h)
    {
        var (columns, rows) = ((int)Math.Round(width / h), (int)Math.Round(height / h));
        var (wallColumn, first, end) = ((int)Math.Round(wall / h), (int)Math.Round(from / h), (int)Math.Round(to / h));
        var n = columns * rows;
        bool OpenRight(int i, int row, int column) => column + 1 < columns && (column + 1 != wallColumn || (row >= first && row < end));
        void Times(double[] x, double[] y)
        {
            for (var i = 0; i < n; i++) y[i] = k * h * h * x[i];
            for (var row = 0; row < rows; row++)
            {
                for (var column = 0; column < columns; column++)
                {
                    var i = (row * columns) + column;
                    if (OpenRight(i, row, column)) Exchange(x, y, i, i + 1);
                    if (row + 1 < rows) Exchange(x, y, i, i + columns);
                }
            }
        }

        void Exchange(double[] x, double[] y, int i, int j)
        {
            var flow = d * (x[i] - x[j]);
            y[i] += flow;
            y[j] -= flow;
        }

        var r = new double[n];
        for (var i = 0; i < n; i++) r[i] = (i % columns) + 1 <= Math.Round(sourceEnd / h) ? h * h : 0;
        var (c, p, q) = (new double[n], (double[])r.Clone(), new double[n]);
        var square = r.Sum(v => v * v);
        var goal = 1e-18 * square;
        while (square > goal)
        {
            Times(p, q);
            var step = square / p.Zip(q).Sum(v => v.First * v.Second);
            var next = 0.0;
            for (var i = 0; i < n; i++)
            {
                c[i] += step * p[i];
                r[i] -= step * q[i];
                next += r[i] * r[i];
            }

            for (var i = 0; i < n; i++) p[i] = r[i] + (next / square * p[i]);
            square = next;
        }

        return c.Select((v, i) => i % columns >= wallColumn ? v * k * h * h : 0).Sum();
    }
}
