using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Lines of equal value on a grid: marching squares with linear interpolation along the grid's edges. An ambiguous
/// square is decided by the mean of its four corners; squares with a missing value (NaN) are skipped, so a line ends at their
/// border. Source: Lorensen and Cline 1987 in its two-dimensional form; checked against two public contouring libraries.</summary>
public static class Isolines
{
    /// <summary>Traces lines between the points of a grid, taken as the nodes that carry the values.</summary>
    /// <param name="nodes">The grid; <see cref="FieldGrid.CellMetres"/> is the spacing of its nodes.</param>
    /// <param name="values">One per node, row by row from below; NaN where there is none.</param>
    /// <param name="levels">Finite levels, any order.</param>
    /// <returns>Per level in the order given: open lines first, then closed ones. Values at or above the level lie to the left
    /// of a line's direction.</returns>
    /// <exception cref="ArgumentException">There is not one value per node, or a level is not finite.</exception>
    public static IReadOnlyList<Isoline> Trace(FieldGrid nodes, double[] values, IReadOnlyList<double> levels) =>
        Trace(ContourMesh.OfNodes(nodes, values), levels);

    /// <summary>Traces lines over the cells that count, right up to their border.</summary>
    /// <param name="grid">The grid of cells.</param>
    /// <param name="values">One per cell; NaN where there is none.</param>
    /// <param name="counts">True for the cells to be drawn; null for all that have a value.</param>
    /// <param name="levels">Finite levels, any order.</param>
    /// <param name="openRight">One per cell: true where it is open to its right neighbour; null where no walls are known.</param>
    /// <param name="openUp">One per cell: true where it is open to the one above; null where no walls are known.</param>
    /// <returns>As for nodes; a line ends at a wall.</returns>
    /// <exception cref="ArgumentException">There is not one value per cell, or a level is not finite.</exception>
    public static IReadOnlyList<Isoline> TraceCells(
        FieldGrid grid, double[] values, bool[]? counts, IReadOnlyList<double> levels, bool[]? openRight = null, bool[]? openUp = null) =>
        Trace(CellMesh.Of(grid, values, counts, openRight, openUp), levels);

    /// <summary>Traces lines of the median net ppm where the readings say something.</summary>
    /// <param name="field">The field.</param>
    /// <param name="levels">Finite levels, net ppm.</param>
    /// <returns>As for nodes.</returns>
    public static IReadOnlyList<Isoline> Trace(GasField field, IReadOnlyList<double> levels) =>
        TraceCells(field.Grid, field.MedianPpm, field.Evidence, levels, field.OpenRight, field.OpenUp);

    private static List<Isoline> Trace(ContourMesh mesh, IReadOnlyList<double> levels)
    {
        List<Isoline> lines = [];
        var starting = new int[mesh.Edges];
        var ends = new bool[mesh.Edges];
        foreach (var level in levels)
        {
            if (!double.IsFinite(level)) throw new ArgumentException($"A level must be a finite number, not {level}.", nameof(levels));
            var pieces = LevelCrossings.Of(mesh, level);
            Array.Fill(starting, -1);
            Array.Clear(ends);
            for (var p = 0; p < pieces.From.Count; p++)
            {
                starting[pieces.From[p]] = p;
                ends[pieces.To[p]] = true;
            }

            var used = new bool[pieces.From.Count];
            for (var p = 0; p < used.Length; p++)
            {
                if (!ends[pieces.From[p]]) Add(lines, Follow(mesh, pieces, starting, used, p), level);
            }

            for (var p = 0; p < used.Length; p++)
            {
                if (!used[p]) Add(lines, Follow(mesh, pieces, starting, used, p), level);
            }
        }

        return lines;
    }

    private static List<PlanPoint> Follow(ContourMesh mesh, LevelCrossings pieces, int[] starting, bool[] used, int first)
    {
        List<PlanPoint> points = [mesh.CrossingAt(pieces.From[first], pieces.Level)];
        for (var p = first; p >= 0 && !used[p]; p = starting[pieces.To[p]])
        {
            used[p] = true;
            var next = mesh.CrossingAt(pieces.To[p], pieces.Level);
            // Where a node has exactly the level, neighbouring crossings fall on one place.
            if (next != points[^1]) points.Add(next);
        }

        return points;
    }

    private static void Add(List<Isoline> lines, List<PlanPoint> points, double level)
    {
        if (points.Count >= 2) lines.Add(new Isoline(level, points, points.Count > 3 && points[0] == points[^1]));
    }
}
