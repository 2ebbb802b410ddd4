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
    double MeanPpm, double DeviationPpm, double LowPpm, double HighPpm, double Exceedance, bool Evidence)
{
    /// <summary>Median net ppm, which the map shows; NaN where there is no air.</summary>
    public double MedianPpm { get; init; } = double.NaN;

    /// <summary>Mean of the log level g = ln(1 + n / scale) from which the others follow; NaN where there is no air.</summary>
    public double Level { get; init; } = double.NaN;

    /// <summary>Its standard deviation.</summary>
    public double LevelDeviation { get; init; } = double.NaN;
}

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
        var mix = new CellMix(grid, cell, p);
        var (level, deviation) = (mix.Of(fit.Level), mix.Of(fit.LevelDeviation));
        var (mean, spread) = LevelMoments.Of(level, deviation, fit.ScalePpm);
        return new FieldValue(
            mean, spread, Quantile(0.05), Quantile(0.95), LevelMoments.Exceedance(level, deviation, field.ActionPpm, fit.ScalePpm),
            field.Evidence[cell]) { MedianPpm = LevelMoments.Ppm(level, fit.ScalePpm), Level = level, LevelDeviation = deviation };
        double Quantile(double probability) => LevelMoments.Ppm(level + (deviation * LevelMoments.NormalQuantile(probability)), fit.ScalePpm);
    }
}
