namespace StoreMap.Plans;

/// <summary>Makes short straight pieces of curves.</summary>
internal static class Curves
{
    private const int MostPieces = 4096;
    private const int BezierPieces = 24;

    /// <summary>Points of an elliptical arc <c>centre + u cos t + v sin t</c>, both ends included.</summary>
    /// <param name="centre">Its centre.</param>
    /// <param name="u">First half axis.</param>
    /// <param name="v">Second half axis.</param>
    /// <param name="start">First parameter, radians.</param>
    /// <param name="sweep">How far it runs, radians, with sign.</param>
    /// <param name="sagitta">The farthest that a piece may lie from the curve, in the unit of the axes.</param>
    public static IEnumerable<PlanPoint> Arc(PlanPoint centre, PlanPoint u, PlanPoint v, double start, double sweep, double sagitta)
    {
        var radius = Math.Max(double.Hypot(u.X, u.Y), double.Hypot(v.X, v.Y));
        var step = sagitta >= radius ? Math.PI / 2 : 2 * Math.Acos(1 - (sagitta / radius));
        var pieces = (int)Math.Clamp(Math.Ceiling(Math.Abs(sweep) / step), 2, MostPieces);
        for (var i = 0; i <= pieces; i++)
        {
            var (sin, cos) = double.SinCos(start + (sweep * i / pieces));
            yield return centre + (u * cos) + (v * sin);
        }
    }

    /// <summary>Points after <paramref name="a"/> of a polyline's piece to <paramref name="b"/>, bulged into an arc.</summary>
    /// <param name="a">Start.</param>
    /// <param name="b">End.</param>
    /// <param name="bulge">Tangent of a quarter of the arc's angle, positive counter-clockwise; 0 is straight.</param>
    /// <param name="sagitta">As in <see cref="Arc"/>.</param>
    public static IEnumerable<PlanPoint> Bulge(PlanPoint a, PlanPoint b, double bulge, double sagitta)
    {
        if (bulge == 0 || a == b) return [b];
        var chord = b - a;
        var across = new PlanPoint(-chord.Y, chord.X) * ((1 - (bulge * bulge)) / (4 * bulge));
        var centre = ((a + b) * 0.5) + across;
        var from = a - centre;
        return Arc(centre, from, new PlanPoint(-from.Y, from.X), 0, 4 * Math.Atan(bulge), sagitta).Skip(1).SkipLast(1).Append(b);
    }

    /// <summary>Points after the first of a Bézier curve of two to four control points.</summary>
    public static IEnumerable<PlanPoint> Bezier(params PlanPoint[] control)
    {
        for (var i = 1; i <= BezierPieces; i++)
        {
            var t = (double)i / BezierPieces;
            var points = control.ToArray();
            for (var n = points.Length - 1; n > 0; n--)
            {
                for (var k = 0; k < n; k++) points[k] = (points[k] * (1 - t)) + (points[k + 1] * t);
            }

            yield return points[0];
        }
    }
}
