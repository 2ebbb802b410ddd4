using StoreMap.Air;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>Computes the heat map: a Gaussian field of the log level that does not cross walls, with censored readings kept censored and
/// the floor that nobody probed left blank. Method, bounds and sources: docs/field.md.</summary>
public static class GasFieldBuilder
{
    /// <summary>Computes the field of one visit.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="survey">Its net readings.</param>
    /// <param name="settings">Cell, air state, values and mask; null for the defaults.</param>
    /// <param name="progress">Told the share done, in [0, 1]; may be null.</param>
    /// <param name="ground">What an earlier map of the same plan in the same cells found of it; null to find it anew.</param>
    /// <param name="cancel">Stops the work between factorisations.</param>
    /// <returns>The field. Without a usable reading it is the prior everywhere and nothing is coloured.</returns>
    /// <exception cref="ArgumentException">The ground is that of another plan or of other cells.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The cell is outside its range, or more than four million cells are asked for.</exception>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    public static GasField Build(
        Plan plan, NetSurvey survey, FieldSettings? settings = null, IProgress<double>? progress = null, FieldGround? ground = null,
        CancellationToken cancel = default)
    {
        settings ??= new FieldSettings();
        ground ??= FieldGround.Of(plan, settings.CellMetres);
        if (!ReferenceEquals(ground.Plan, plan) || ground.Grid.CellMetres != settings.CellMetres) throw new ArgumentException("The ground is that of another plan or of other cells.", nameof(ground));
        var readings = FieldReadings.Chosen(survey, settings.Air);
        var scale = FieldReadings.ScaleOf(readings);
        var grid = ground.Grid;
        var sites = readings.Select(r => FieldReadings.Site(r, FieldReadings.CellOf(grid, r.Reading), scale)).Where(s => s.Cell >= 0).ToList();
        var estimate = settings.Estimate && sites.Count >= settings.FewestReadings;
        var values = FieldValues.Of(settings);
        var bodies = FieldBody.Of(grid, sites, values.Range);
        var (done, steps) = (0, bodies.Count + (estimate ? 5 : 0));
        if (estimate) values = FieldSearch.Best(bodies, values, Step);
        var field = new FieldDraft(grid, values);
        steps = done + bodies.Count;
        foreach (var body in bodies)
        {
            Step();
            field.Fill(body, ground, settings.Settled);
        }

        progress?.Report(1);
        var action = readings.Count == 0 ? 2 : readings.Min(r => r.ActionPpm);
        int[] cells = [.. sites.Select(s => s.Cell).Distinct().Order()];
        return field.Finish(settings, cells, action, new FieldFit
        {
            ScalePpm = scale,
            RangeMetres = values.Range,
            Spread = values.Spread,
            Turbulence = values.Turbulence,
            BaseLevel = values.Base,
            Estimated = estimate,
            Readings = sites.Count,
            Level = field.Level,
            LevelDeviation = field.Deviation,
        });

        void Step()
        {
            cancel.ThrowIfCancellationRequested();
            progress?.Report(Math.Min(0.99, (double)done++ / Math.Max(1, steps)));
        }
    }
}
