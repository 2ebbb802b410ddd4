using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>Areas between levels on a grid, bounded by the same lines as <see cref="Isolines"/> and by the border of what
/// counts. The bands of ascending levels share their borders and neither overlap nor leave a gap; outer rings run
/// counter-clockwise and holes clockwise.</summary>
public static class Isobands
{
    /// <summary>Traces bands between the points of a grid, taken as the nodes that carry the values.</summary>
    /// <param name="nodes">The grid; <see cref="FieldGrid.CellMetres"/> is the spacing of its nodes.</param>
    /// <param name="values">One per node, row by row from below; NaN where there is none.</param>
    /// <param name="levels">Strictly ascending; the first may be minus infinity, so that the bands cover everything.</param>
    /// <returns>One band per level, from it to the next level, the last without an upper end. A band may be empty.</returns>
    /// <exception cref="ArgumentException">There is not one value per node, or the levels don't ascend.</exception>
    public static IReadOnlyList<Isoband> Trace(FieldGrid nodes, double[] values, IReadOnlyList<double> levels) =>
        Trace(ContourMesh.OfNodes(nodes, values), levels);

    /// <summary>Traces bands over the cells that count, covering each of them whole.</summary>
    /// <param name="grid">The grid of cells.</param>
    /// <param name="values">One per cell; NaN where there is none.</param>
    /// <param name="counts">True for the cells to be drawn; null for all that have a value.</param>
    /// <param name="levels">Strictly ascending; the first may be minus infinity.</param>
    /// <param name="openRight">One per cell: true where it is open to its right neighbour; null where no walls are known.</param>
    /// <param name="openUp">One per cell: true where it is open to the one above; null where no walls are known.</param>
    /// <returns>As for nodes; nothing is interpolated through a wall.</returns>
    /// <exception cref="ArgumentException">There is not one value per cell, or the levels don't ascend.</exception>
    public static IReadOnlyList<Isoband> TraceCells(
        FieldGrid grid, double[] values, bool[]? counts, IReadOnlyList<double> levels, bool[]? openRight = null, bool[]? openUp = null) =>
        Trace(CellMesh.Of(grid, values, counts, openRight, openUp), levels);

    /// <summary>Traces bands of the median net ppm where the readings say something; the rest of the floor stays out of every band.</summary>
    /// <param name="field">The field.</param>
    /// <param name="levels">Strictly ascending, net ppm; the first may be minus infinity.</param>
    /// <returns>As for nodes.</returns>
    public static IReadOnlyList<Isoband> Trace(GasField field, IReadOnlyList<double> levels) =>
        TraceCells(field.Grid, field.MedianPpm, field.Evidence, levels, field.OpenRight, field.OpenUp);

    /// <summary>Traces, for each level, all that is at or above it where the readings say something: areas that lie on one another, unlike bands.</summary>
    /// <param name="field">The field.</param>
    /// <param name="levels">Strictly ascending, net ppm; the first may be minus infinity, for all that counts.</param>
    /// <returns>One band per level without an upper end; the same rings as tracing each level by itself, at the price of one mesh.</returns>
    /// <exception cref="ArgumentException">The levels don't ascend.</exception>
    public static IReadOnlyList<Isoband> TraceAbove(GasField field, IReadOnlyList<double> levels)
    {
        var mesh = CellMesh.Of(field.Grid, field.MedianPpm, field.Evidence, field.OpenRight, field.OpenUp);
        CheckLevels(levels);
        var border = MeshBorder.Of(mesh);
        return [.. levels.Select(level => new Isoband(
            level, double.PositiveInfinity, new BandRings(mesh, border, double.IsFinite(level) ? LevelCrossings.Of(mesh, level) : null, null).Trace()))];
    }

    private static void CheckLevels(IReadOnlyList<double> levels)
    {
        for (var i = 0; i < levels.Count; i++)
        {
            var ascends = i == 0 ? levels[0] < double.PositiveInfinity : levels[i] > levels[i - 1] && double.IsFinite(levels[i]);
            if (!ascends) throw new ArgumentException("Levels must be finite and strictly ascending; only the first may be minus infinity.", nameof(levels));
        }
    }

    private static List<Isoband> Trace(ContourMesh mesh, IReadOnlyList<double> levels)
    {
        CheckLevels(levels);
        List<Isoband> bands = [];
        var border = MeshBorder.Of(mesh);
        var low = levels.Count > 0 && double.IsFinite(levels[0]) ? LevelCrossings.Of(mesh, levels[0]) : null;
        for (var i = 0; i < levels.Count; i++)
        {
            var high = i + 1 < levels.Count ? LevelCrossings.Of(mesh, levels[i + 1]) : null;
            bands.Add(new Isoband(levels[i], high?.Level ?? double.PositiveInfinity, new BandRings(mesh, border, low, high).Trace()));
            low = high;
        }

        return bands;
    }
}
