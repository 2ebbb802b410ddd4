namespace StoreMap.Plans;

/// <summary>A line of two or more plan points along which distances are measured from its first point, such as a fixture's front.</summary>
public sealed class PlanLine
{
    private readonly double[] starts;

    /// <summary>Makes a line.</summary>
    /// <param name="points">Two or more points, metres, in order.</param>
    /// <exception cref="ArgumentException">There are fewer than two points.</exception>
    public PlanLine(IReadOnlyList<PlanPoint> points)
    {
        if (points.Count < 2) throw new ArgumentException("A line needs two or more points.", nameof(points));
        Points = points;
        starts = new double[points.Count];
        for (var i = 1; i < points.Count; i++) starts[i] = starts[i - 1] + points[i - 1].DistanceTo(points[i]);
    }

    /// <summary>The points in order, metres.</summary>
    public IReadOnlyList<PlanPoint> Points { get; }

    /// <summary>Length along the line, metres.</summary>
    public double Length => starts[^1];

    /// <summary>The place at a distance along the line.</summary>
    /// <param name="along">Metres from the first point; clamped to [0, <see cref="Length"/>].</param>
    public PlanPoint PointAt(double along)
    {
        var (i, past, length) = Piece(along);
        return length == 0 ? Points[i] : Points[i] + ((Points[i + 1] - Points[i]) * (past / length));
    }

    /// <summary>Unit direction of travel at a distance along the line; at a corner that of the piece that begins there.</summary>
    /// <param name="along">Metres from the first point; clamped to [0, <see cref="Length"/>].</param>
    public PlanPoint DirectionAt(double along)
    {
        var (i, _, length) = Piece(along);
        return length == 0 ? new PlanPoint(1, 0) : (Points[i + 1] - Points[i]) * (1 / length);
    }

    /// <summary>Finds the nearest place on the line.</summary>
    /// <param name="p">Any plan point.</param>
    /// <returns>Metres from the first point to the nearest place, and the straight distance to it.</returns>
    public (double Along, double Distance) Project(PlanPoint p)
    {
        var best = (Along: 0.0, Distance: double.PositiveInfinity);
        for (var i = 0; i + 1 < Points.Count; i++)
        {
            var nearest = new PlanSegment(Points[i], Points[i + 1]).Nearest(p);
            var distance = nearest.DistanceTo(p);
            if (distance < best.Distance) best = (starts[i] + Points[i].DistanceTo(nearest), distance);
        }

        return best;
    }

    private (int Index, double Past, double Length) Piece(double along)
    {
        along = Math.Clamp(along, 0, Length);
        var i = 0;
        while (i + 2 < Points.Count && starts[i + 1] <= along) i++;
        return (i, along - starts[i], starts[i + 1] - starts[i]);
    }
}
