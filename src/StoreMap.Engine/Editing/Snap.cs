namespace StoreMap.Editing;

/// <summary>Where a point being placed comes to rest. Coordinates in the layout's unit.</summary>
/// <param name="X">Place.</param>
/// <param name="Y">Place.</param>
/// <param name="OnEnd">True when it is a corner or end of something else.</param>
public readonly record struct Snapped(double X, double Y, bool OnEnd);

/// <summary>Pulls a point to what it was probably meant to be: an end, a line with an end, the grid.</summary>
public static class Snap
{
    /// <summary>Snaps a point.</summary>
    /// <param name="x">Where it is.</param>
    /// <param name="y">Where it is.</param>
    /// <param name="ends">Corners and ends of other things.</param>
    /// <param name="reach">How far an end or a line pulls, above 0.</param>
    /// <param name="grid">Step of the grid; 0 for none.</param>
    /// <returns>The nearest end within reach; else x and y each in line with the nearest end within reach, else on the grid.</returns>
    public static Snapped Point(double x, double y, IReadOnlyList<(double X, double Y)> ends, double reach, double grid)
    {
        var best = ends.Select(e => (e.X, e.Y, D: double.Hypot(e.X - x, e.Y - y))).Where(e => e.D <= reach).OrderBy(e => e.D).ToList();
        if (best.Count > 0) return new Snapped(best[0].X, best[0].Y, true);
        return new Snapped(Line(x, ends.Select(e => e.X), reach, grid), Line(y, ends.Select(e => e.Y), reach, grid), false);
    }

    /// <summary>How far a moved box must be shifted so that one of its sides is in line with something, or its lower left corner on the grid.</summary>
    /// <param name="box">The box where it was let go.</param>
    /// <param name="ends">Corners and ends of other things.</param>
    /// <param name="reach">How far a line pulls.</param>
    /// <param name="grid">Step of the grid; 0 for none.</param>
    public static (double X, double Y) Box((double X0, double Y0, double X1, double Y1) box, IReadOnlyList<(double X, double Y)> ends, double reach, double grid) =>
        (Shift(box.X0, box.X1, [.. ends.Select(e => e.X)], reach, grid), Shift(box.Y0, box.Y1, [.. ends.Select(e => e.Y)], reach, grid));

    private static double Shift(double low, double high, IReadOnlyList<double> lines, double reach, double grid)
    {
        var pulls = lines.SelectMany(l => new[] { l - low, l - high }).Where(d => Math.Abs(d) <= reach).OrderBy(Math.Abs).ToList();
        return pulls.Count > 0 ? pulls[0] : OnGrid(low, grid) - low;
    }

    private static double Line(double value, IEnumerable<double> lines, double reach, double grid)
    {
        var near = lines.Where(l => Math.Abs(l - value) <= reach).OrderBy(l => Math.Abs(l - value)).ToList();
        return near.Count > 0 ? near[0] : OnGrid(value, grid);
    }

    private static double OnGrid(double value, double grid) => grid > 0 ? Math.Round(value / grid) * grid : value;
}
