using StoreMap.Air;
using StoreMap.Plans;

namespace StoreMap.Fields;

/// <summary>The field at a place.</summary>
/// <param name="MeanPpm">Mean net ppm; NaN where there is no air.</param>
/// <param name="DeviationPpm">Its standard deviation.</param>
/// <param name="LowPpm">The net ppm it is above with 95 %.</param>
/// <param name="HighPpm">The net ppm it is below with 95 %.</param>
/// <param name="Exceedance">Probability of the action level or more.</param>
/// <param name="Evidence">True where the readings say something.</param>
public readonly record struct FieldValue(
    double MeanPpm, double DeviationPpm, double LowPpm, double HighPpm, double Exceedance, bool Evidence);

/// <summary>Reads a field at any place of its plan, between cells too, never across a wall.</summary>
public sealed class FieldSampler
{
    private readonly AirGrid grid;
    private readonly GasField field;
    private readonly FieldFit fit;

    /// <summary>Prepares a field.</summary>
    /// <param name="plan">The plan it was computed for.</param>
    /// <param name="field">A field of <see cref="GasFieldBuilder"/>.</param>
    /// <exception cref="ArgumentException">The field was made otherwise, or for another plan.</exception>
    public FieldSampler(Plan plan, GasField field)
    {
        (this.field, fit) = (field, field.Fit ?? throw new ArgumentException("The field does not carry its log level.", nameof(field)));
        grid = AirGrid.Build(plan, field.Grid.CellMetres);
        if (grid.Count != field.Grid.Count || grid.CentreOf(0) != field.Grid.Origin)
            throw new ArgumentException("The field was computed for another plan.", nameof(plan));
    }

    /// <summary>The field at a place: the log level interpolated linearly between cell centres that air connects.</summary>
    /// <param name="p">Plan point.</param>
    /// <param name="fixture">The case whose own air is meant; null for the air at the point.</param>
    /// <returns>The value; NaN numbers and no evidence where there is no air.</returns>
    public FieldValue At(PlanPoint p, string? fixture = null)
    {
        var cell = grid.CellAt(p, fixture);
        if (cell < 0) return new FieldValue(double.NaN, double.NaN, double.NaN, double.NaN, double.NaN, false);
        var centre = grid.CentreOf(cell);
        var (dx, dy) = ((p.X - centre.X) / grid.CellMetres, (p.Y - centre.Y) / grid.CellMetres);
        var beside = AirComponents.Neighbour(grid, cell, dx >= 0 ? 0 : 2);
        var above = AirComponents.Neighbour(grid, cell, dy >= 0 ? 1 : 3);
        var (s, t) = (beside < 0 ? 0 : Math.Min(0.5, Math.Abs(dx)), above < 0 ? 0 : Math.Min(0.5, Math.Abs(dy)));
        var corner = beside < 0 || above < 0 ? -1 : AirComponents.Neighbour(grid, beside, dy >= 0 ? 1 : 3);
        if (corner < 0 && s > 0 && t > 0) (s, t) = s >= t ? (s, 0.0) : (0.0, t);
        double Mix(double[] v) =>
            ((1 - s) * (1 - t) * v[cell]) + (s > 0 ? s * (1 - t) * v[beside] : 0) + (t > 0 ? t * (1 - s) * v[above] : 0)
            + (s > 0 && t > 0 ? s * t * v[corner] : 0);
        var (level, deviation) = (Mix(fit.Level), Mix(fit.LevelDeviation));
        var (mean, spread) = LevelMoments.Of(level, deviation, fit.ScalePpm);
        return new FieldValue(
            mean, spread, Quantile(0.05), Quantile(0.95), LevelMoments.Exceedance(level, deviation, field.ActionPpm, fit.ScalePpm),
            field.Evidence[cell]);
        double Quantile(double probability) => LevelMoments.Ppm(level + (deviation * LevelMoments.NormalQuantile(probability)), fit.ScalePpm);
    }
}
