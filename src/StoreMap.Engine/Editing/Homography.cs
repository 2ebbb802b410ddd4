namespace StoreMap.Editing;

/// <summary>The perspective map of one quadrilateral on another: how a picture taken askew becomes a plan. By way of the unit square, in the
/// closed form of Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), section 2.2.3.</summary>
public sealed class Homography
{
    // Row by row; (x, y) goes to ((ax + by + c) / w, (dx + ey + f) / w) with w = gx + hy + i.
    private readonly double[] m;

    private Homography(double[] m) => this.m = m;

    /// <summary>The nine numbers, row by row.</summary>
    public IReadOnlyList<double> Rows => m;

    /// <summary>The map that takes four points to four others.</summary>
    /// <param name="from">Four points in order round, the corners of a convex quadrilateral.</param>
    /// <param name="to">Where each goes; likewise.</param>
    /// <returns>Null when either is no such quadrilateral.</returns>
    public static Homography? Of(IReadOnlyList<(double X, double Y)> from, IReadOnlyList<(double X, double Y)> to) =>
        from.Count == 4 && to.Count == 4 && IsQuad(from) && IsQuad(to) ? new Homography(Product(OfSquare(to), Adjugate(OfSquare(from)))) : null;

    /// <summary>Where a point goes.</summary>
    public (double X, double Y) Map(double x, double y)
    {
        var w = (m[6] * x) + (m[7] * y) + m[8];
        return (((m[0] * x) + (m[1] * y) + m[2]) / w, ((m[3] * x) + (m[4] * y) + m[5]) / w);
    }

    // Round one way with a turn at each corner: neither crossed nor dented nor flat.
    private static bool IsQuad(IReadOnlyList<(double X, double Y)> p)
    {
        var size = double.Hypot(p.Max(q => q.X) - p.Min(q => q.X), p.Max(q => q.Y) - p.Min(q => q.Y));
        var turns = Enumerable.Range(0, 4).Select(i =>
        {
            var (a, b, c) = (p[i], p[(i + 1) % 4], p[(i + 2) % 4]);
            return ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
        }).ToList();
        var least = 1e-6 * size * size;
        return turns.TrueForAll(t => t > least) || turns.TrueForAll(t => t < -least);
    }

    // From (0, 0), (1, 0), (1, 1), (0, 1).
    private static double[] OfSquare(IReadOnlyList<(double X, double Y)> p)
    {
        double dx1 = p[1].X - p[2].X, dx2 = p[3].X - p[2].X, sx = p[0].X - p[1].X + p[2].X - p[3].X;
        double dy1 = p[1].Y - p[2].Y, dy2 = p[3].Y - p[2].Y, sy = p[0].Y - p[1].Y + p[2].Y - p[3].Y;
        var d = (dx1 * dy2) - (dx2 * dy1);
        double g = ((sx * dy2) - (dx2 * sy)) / d, h = ((dx1 * sy) - (sx * dy1)) / d;
        return
        [
            p[1].X - p[0].X + (g * p[1].X), p[3].X - p[0].X + (h * p[3].X), p[0].X,
            p[1].Y - p[0].Y + (g * p[1].Y), p[3].Y - p[0].Y + (h * p[3].Y), p[0].Y,
            g, h, 1,
        ];
    }

    private static double[] Product(double[] a, double[] b) =>
        [.. Enumerable.Range(0, 9).Select(k => Enumerable.Range(0, 3).Sum(j => a[(k / 3 * 3) + j] * b[(j * 3) + (k % 3)]))];

    // The inverse but for a factor, which a perspective map does not feel.
    private static double[] Adjugate(double[] a) =>
    [
        (a[4] * a[8]) - (a[5] * a[7]), (a[2] * a[7]) - (a[1] * a[8]), (a[1] * a[5]) - (a[2] * a[4]),
        (a[5] * a[6]) - (a[3] * a[8]), (a[0] * a[8]) - (a[2] * a[6]), (a[2] * a[3]) - (a[0] * a[5]),
        (a[3] * a[7]) - (a[4] * a[6]), (a[1] * a[6]) - (a[0] * a[7]), (a[0] * a[4]) - (a[1] * a[3]),
    ];
}
