using StoreMap.Air;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>The heat map's Gaussian field over any points, without walls and without the logarithm: to be set beside the classical methods.
/// Method: docs/field.md.</summary>
/// <remarks>Values are taken in standard deviations about their mean and lengths in 24ths of the points' diagonal, so that the bounds within
/// which range, spread and noise are estimated hold in any unit.</remarks>
public sealed class FieldInterpolation
{
    private const double UnitsPerDiagonal = 24;
    private const double MarginUnits = 3;
    private const double CellUnits = 0.25;

    // The estimated noise lies between 0.1 and 1.2 standard deviations: this many times the bounds of turbulence.
    private const double NoiseShare = 2;
    private const int FewestToEstimate = 12;

    private readonly AirGrid grid;
    private readonly FieldDraft draft;
    private readonly FieldBody body;
    private readonly FieldValues values;
    private readonly IReadOnlyList<SamplePoint> samples;
    private readonly (double Mean, double Deviation) scale;
    private readonly PlanPoint corner;
    private readonly double unit;

    private FieldInterpolation(IReadOnlyList<SamplePoint> samples, Action step)
    {
        this.samples = samples;
        var mean = samples.Average(s => s.Value);
        var deviation = Math.Sqrt(samples.Average(s => (s.Value - mean) * (s.Value - mean)));
        scale = (mean, deviation > 0 ? deviation : 1);
        corner = new PlanPoint(samples.Min(s => s.At.X), samples.Min(s => s.At.Y));
        var extent = new PlanPoint(samples.Max(s => s.At.X), samples.Max(s => s.At.Y)) - corner;
        var diagonal = Math.Sqrt(extent.Dot(extent));
        unit = diagonal > 0 ? diagonal / UnitsPerDiagonal : 1;
        var (width, height) = ((extent.X / unit) + (2 * MarginUnits), (extent.Y / unit) + (2 * MarginUnits));
        var floor = new Plan { Id = "points", Name = "points", Outline = [new(0, 0), new(width, 0), new(width, height), new(0, height)] };
        var ground = FieldGround.Of(floor, CellUnits);
        grid = ground.Grid;
        values = new FieldValues(3, 1, 0.15, 0);
        body = FieldBody.Of(grid, samples.Select(Site), values.Range).Single();
        if (samples.Count >= FewestToEstimate) values = FieldSearch.Best([body], values, step);
        step();
        draft = new FieldDraft(grid, values);
        draft.Fill(body, ground, new FieldSettings().Settled);
    }

    /// <summary>Range, in the unit of the points: where the correlation has fallen to 0.14.</summary>
    public double Range => values.Range * unit;

    /// <summary>Standard deviation of the field.</summary>
    public double Spread => values.Spread * scale.Deviation;

    /// <summary>Standard deviation of a measurement about the field.</summary>
    public double Noise => values.Turbulence * NoiseShare * scale.Deviation;

    /// <summary>Mean of the field.</summary>
    public double Mean => scale.Mean + (values.Base * scale.Deviation);

    /// <summary>Fits the field.</summary>
    /// <param name="samples">At least one; several may lie at one place.</param>
    /// <param name="cancel">Stops the work between factorisations.</param>
    /// <exception cref="ArgumentException">There is no sample point, or one is not finite.</exception>
    public static FieldInterpolation Of(IReadOnlyList<SamplePoint> samples, CancellationToken cancel = default)
    {
        SamplePoint.Check(samples);
        return new FieldInterpolation(samples, cancel.ThrowIfCancellationRequested);
    }

    /// <summary>Estimates a new measurement at a place; beyond the margin of three units the field's mean and variance.</summary>
    /// <param name="at">In the unit of the points.</param>
    public KrigingEstimate Estimate(PlanPoint at)
    {
        var p = Local(at);
        var cell = grid.CellAt(p);
        if (cell < 0) return Out(values.Base, values.Spread * values.Spread);
        var mix = new CellMix(grid, cell, p);
        var deviation = mix.Of(draft.Deviation);
        return Out(mix.Of(draft.Level), deviation * deviation);
    }

    /// <summary>Scores it: each sample point estimated from all others, the estimated values kept.</summary>
    public CrossValidation CrossValidate()
    {
        var fit = SitePosterior.Fit(ObservedPrior.Of(body.Factor(values.Range)), body.Sites, body.At, values);
        return CrossValidation.Score(samples, [.. Enumerable.Range(0, samples.Count).Select(k => Out(fit.Without(k).Mean, fit.Without(k).Variance))]);
    }

    private FieldSite Site(SamplePoint s) =>
        new(grid.CellAt(Local(s.At)), (s.Value - scale.Mean) / scale.Deviation, 1e-3, NoiseShare, ReadingBound.Exact);

    private PlanPoint Local(PlanPoint at) => ((at - corner) * (1 / unit)) + new PlanPoint(MarginUnits, MarginUnits);

    private KrigingEstimate Out(double level, double variance)
    {
        var noise = values.Turbulence * NoiseShare;
        return new KrigingEstimate(scale.Mean + (level * scale.Deviation), (variance + (noise * noise)) * scale.Deviation * scale.Deviation);
    }
}
