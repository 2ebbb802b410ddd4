using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>A regular grid over the plan; node (0,0) is the lower left cell's centre.</summary>
/// <param name="Origin">Centre of the lower left cell, metres.</param>
/// <param name="CellMetres">Side of a cell, metres.</param>
/// <param name="Columns">Cells along x.</param>
/// <param name="Rows">Cells along y.</param>
public sealed record FieldGrid(PlanPoint Origin, double CellMetres, int Columns, int Rows)
{
    /// <summary>Number of cells.</summary>
    public int Count => Columns * Rows;

    /// <summary>Centre of a cell, metres; index = row * <see cref="Columns"/> + column.</summary>
    public PlanPoint CentreOf(int index) =>
        new(Origin.X + (index % Columns * CellMetres), Origin.Y + (index / Columns * CellMetres));

    /// <summary>Index of the cell that holds a point; -1 outside the grid.</summary>
    public int IndexOf(PlanPoint p)
    {
        var column = (int)Math.Floor(((p.X - Origin.X) / CellMetres) + 0.5);
        var row = (int)Math.Floor(((p.Y - Origin.Y) / CellMetres) + 0.5);
        return column < 0 || row < 0 || column >= Columns || row >= Rows ? -1 : (row * Columns) + column;
    }
}

/// <summary>Net concentration over the plan. Arrays have one value per cell of <see cref="Grid"/>.</summary>
public sealed record GasField
{
    private readonly double[]? median;

    /// <summary>The grid.</summary>
    public required FieldGrid Grid { get; init; }

    /// <summary>Mean net ppm; NaN inside walls and outside the store.</summary>
    public required double[] MeanPpm { get; init; }

    /// <summary>Median net ppm: as likely above as below. This is what maps and contours show, because the mean is drawn up by what is
    /// merely possible where little is known. The mean where the field does not carry its log level; NaN where the mean is.</summary>
    public double[] MedianPpm
    {
        get => median ?? MeanPpm;
        init => median = value;
    }

    /// <summary>Standard deviation of the net ppm; NaN where the mean is.</summary>
    public required double[] DeviationPpm { get; init; }

    /// <summary>True where the readings say something; the rest is drawn blank.</summary>
    public required bool[] Evidence { get; init; }

    /// <summary>Probability that the net ppm is at or above the action level, [0, 1]; NaN where the mean is.</summary>
    public required double[] Exceedance { get; init; }

    /// <summary>The action level the exceedance is about, net ppm.</summary>
    public required double ActionPpm { get; init; }

    /// <summary>True where air passes from a cell to its right neighbour; null when no walls are known. Contours don't cross walls.</summary>
    public bool[]? OpenRight { get; init; }

    /// <summary>True where air passes from a cell to the one above; null when no walls are known.</summary>
    public bool[]? OpenUp { get; init; }

    /// <summary>The values it was computed with and its log level, from which quantiles follow; null when it was made otherwise.</summary>
    public FieldFit? Fit { get; init; }
}

/// <summary>A line of one level.</summary>
/// <param name="Level">The level, in the field's unit.</param>
/// <param name="Points">Plan metres; the first point is repeated at the end when closed.</param>
/// <param name="Closed">True for a loop.</param>
public sealed record Isoline(double Level, IReadOnlyList<PlanPoint> Points, bool Closed)
{
    /// <summary>Length in metres.</summary>
    public double Length => Points.Zip(Points.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
}

/// <summary>The area between two levels.</summary>
/// <param name="Low">Lower level, included.</param>
/// <param name="High">Upper level, excluded; infinity for the top band.</param>
/// <param name="Rings">Rings in plan metres, first point not repeated; even-odd rule.</param>
public sealed record Isoband(double Low, double High, IReadOnlyList<IReadOnlyList<PlanPoint>> Rings)
{
    /// <summary>Area in square metres: outer rings, counter-clockwise, less holes, clockwise.</summary>
    public double SquareMetres => Rings.Sum(Ring.SignedArea);
}
