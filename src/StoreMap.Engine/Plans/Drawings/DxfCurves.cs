namespace StoreMap.Plans;

/// <summary>The course of one DXF entity in its own coordinates.</summary>
internal static class DxfCurves
{
    /// <summary>Types that have a course; texts and inserts are treated elsewhere.</summary>
    public static bool Knows(string type) => type is "LINE" or "LWPOLYLINE" or "POLYLINE" or "ARC" or "CIRCLE" or "ELLIPSE" or "SOLID";

    /// <summary>The map from an entity's own plane to the world's x and y (the arbitrary axis rule of the DXF reference).</summary>
    public static Affine Plane(DxfEntity entity)
    {
        double x = entity.Number(210, 0), y = entity.Number(220, 0), z = entity.Number(230, 1);
        var size = Math.Sqrt((x * x) + (y * y) + (z * z));
        if (size == 0 || entity.Type is "LINE" or "ELLIPSE") return Affine.Identity;
        (x, y, z) = (x / size, y / size, z / size);
        const double Near = 1.0 / 64;
        var (ax, ay, az) = Math.Abs(x) < Near && Math.Abs(y) < Near ? (z, 0.0, -x) : (-y, x, 0.0);
        var length = Math.Sqrt((ax * ax) + (ay * ay) + (az * az));
        (ax, ay, az) = (ax / length, ay / length, az / length);
        return new Affine(ax, ay, (y * az) - (z * ay), (z * ax) - (x * az), 0, 0);
    }

    /// <summary>Points in the drawing's unit; a closed course does not repeat its first.</summary>
    /// <param name="entity">An entity whose type is known and whose numbers are sound.</param>
    /// <param name="sagitta">The farthest that a piece may lie from the curve, in the drawing's unit.</param>
    public static (bool Closed, IReadOnlyList<PlanPoint> Points) Course(DxfEntity entity, double sagitta) => entity.Type switch
    {
        "LINE" => (false, [entity.Point(10), entity.Point(11)]),
        "LWPOLYLINE" => Poly([.. LightVertices(entity)], ((int)entity.Number(70, 0) & 1) != 0, sagitta),
        "POLYLINE" => Poly([.. entity.Parts.Select(v => (v.Point(10), v.Number(42, 0)))], ((int)entity.Number(70, 0) & 1) != 0, sagitta),
        "CIRCLE" => (true, [.. Round(entity, 0, 2 * Math.PI, sagitta).SkipLast(1)]),
        "ARC" => (false, [.. Round(entity, Radians(entity.Number(50, 0)), Sweep(Radians(entity.Number(50, 0)), Radians(entity.Number(51, 360))), sagitta)]),
        "ELLIPSE" => Ellipse(entity, sagitta),
        _ => (true, [entity.Point(10), entity.Point(11), entity.Point(13), entity.Point(12)]),
    };

    private static IEnumerable<PlanPoint> Round(DxfEntity entity, double start, double sweep, double sagitta)
    {
        var radius = entity.Number(40, 0);
        return Curves.Arc(entity.Point(10), new PlanPoint(radius, 0), new PlanPoint(0, radius), start, sweep, sagitta);
    }

    private static (bool, IReadOnlyList<PlanPoint>) Ellipse(DxfEntity entity, double sagitta)
    {
        var major = entity.Point(11);
        var turn = entity.Number(230, 1) < 0 ? -1 : 1;
        var minor = new PlanPoint(-major.Y, major.X) * (entity.Number(40, 1) * turn);
        double start = entity.Number(41, 0), sweep = Sweep(start, entity.Number(42, 2 * Math.PI));
        var closed = Math.Abs(sweep - (2 * Math.PI)) < 1e-9;
        var points = Curves.Arc(entity.Point(10), major, minor, start, sweep, sagitta).ToList();
        return (closed, closed ? points[..^1] : points);
    }

    private static IEnumerable<(PlanPoint At, double Bulge)> LightVertices(DxfEntity entity)
    {
        PlanPoint? at = null;
        var bulge = 0.0;
        foreach (var group in entity.Groups)
        {
            if (group.Code == 10)
            {
                if (at is { } done) yield return (done, bulge);
                (at, bulge) = (new PlanPoint(group.Number ?? 0, 0), 0);
            }
            else if (group.Code == 20 && at is { } open)
            {
                at = open with { Y = group.Number ?? 0 };
            }
            else if (group.Code == 42)
            {
                bulge = group.Number ?? 0;
            }
        }

        if (at is { } last) yield return (last, bulge);
    }

    private static (bool, IReadOnlyList<PlanPoint>) Poly(IReadOnlyList<(PlanPoint At, double Bulge)> vertices, bool closed, double sagitta)
    {
        if (vertices.Count == 0) return (false, []);
        List<PlanPoint> points = [vertices[0].At];
        for (var i = 0; i + (closed ? 0 : 1) < vertices.Count; i++) points.AddRange(Curves.Bulge(vertices[i].At, vertices[(i + 1) % vertices.Count].At, vertices[i].Bulge, sagitta));
        if (closed || (points.Count > 3 && points[0] == points[^1])) return (true, points[..^1]);
        return (false, points);
    }

    private static double Radians(double degrees) => degrees * Math.PI / 180;

    // Arcs run counter-clockwise; equal ends are a full turn.
    private static double Sweep(double start, double end)
    {
        var sweep = Math.IEEERemainder(end - start, 2 * Math.PI);
        return sweep <= 1e-12 ? sweep + (2 * Math.PI) : sweep;
    }
}
