using StoreMap.Air;

namespace StoreMap.Fields;

/// <summary>The log level of every cell while the field is being computed.</summary>
internal sealed class FieldDraft
{
    private readonly AirGrid grid;
    private readonly FieldValues values;

    /// <summary>Starts from the prior: the base level with the store's spread; NaN in solid cells.</summary>
    public FieldDraft(AirGrid grid, FieldValues values)
    {
        (this.grid, this.values) = (grid, values);
        (Level, Deviation) = (new double[grid.Count], new double[grid.Count]);
        for (var c = 0; c < grid.Count; c++)
            (Level[c], Deviation[c]) = grid.RegionOf[c] < 0 ? (double.NaN, double.NaN) : (values.Base, values.Spread);
    }

    /// <summary>Mean of the log level per cell.</summary>
    public double[] Level { get; }

    /// <summary>Standard deviation of the log level per cell.</summary>
    public double[] Deviation { get; }

    /// <summary>Conditions one body of air on its readings.</summary>
    /// <remarks>The raw field u has precision Q; the level is base + spread · u / d with d the prior deviation of u in that cell, so a
    /// reading of precision w and shift b of the level adds w (spread/d)² to the diagonal and b · spread/d to the right-hand side.</remarks>
    public void Fill(FieldBody body, FieldGround ground, double settled)
    {
        var factor = body.Factor(values.Range);
        var prior = ObservedPrior.Of(factor);
        var fit = SitePosterior.Fit(prior, body.Sites, body.At, values, settled: settled);
        var raw = ground.Variances(body.Component, values.Range, () =>
        {
            factor.Complete(new double[prior.Count]);
            return SelectedInverse.Diagonal(factor);
        });
        var (added, shift) = (fit.PerCell(fit.Precision), fit.PerCell(fit.Shift));
        var right = new double[body.Operator.Count];
        for (var i = 0; i < prior.Count; i++)
        {
            var unit = values.Spread / prior.Deviation[i];
            added[i] *= unit * unit;
            right[body.Observed[i]] = shift[i] * unit;
        }

        factor.Complete(added);
        var mean = factor.Solve(right);
        var variance = SelectedInverse.Diagonal(factor);
        for (var i = 0; i < mean.Length; i++)
        {
            var cell = body.Operator.Cells[i];
            Level[cell] = values.Base + (values.Spread * mean[i] / Math.Sqrt(raw[i]));
            Deviation[cell] = values.Spread * Math.Sqrt(Math.Min(1, variance[i] / raw[i]));
        }
    }

    /// <summary>Takes the level back to ppm and decides what may be coloured.</summary>
    public GasField Finish(FieldSettings settings, int[] readingCells, double actionPpm, FieldFit fit)
    {
        var (mean, deviation, exceedance) = (new double[grid.Count], new double[grid.Count], new double[grid.Count]);
        for (var c = 0; c < grid.Count; c++)
        {
            if (grid.RegionOf[c] < 0)
            {
                mean[c] = deviation[c] = exceedance[c] = double.NaN;
                continue;
            }

            (mean[c], deviation[c]) = LevelMoments.Of(Level[c], Deviation[c], fit.ScalePpm);
            exceedance[c] = LevelMoments.Exceedance(Level[c], Deviation[c], actionPpm, fit.ScalePpm);
        }

        return new GasField
        {
            Grid = new FieldGrid(grid.CentreOf(0), grid.CellMetres, grid.Columns, grid.Rows),
            MeanPpm = mean,
            MedianPpm = Array.ConvertAll(Level, level => LevelMoments.Ppm(level, fit.ScalePpm)),
            DeviationPpm = deviation,
            Evidence = EvidenceMask.Of(grid, readingCells, values.Range, settings),
            Exceedance = exceedance,
            ActionPpm = actionPpm,
            OpenRight = Array.ConvertAll(grid.Right, open => open > 0),
            OpenUp = Array.ConvertAll(grid.Up, open => open > 0),
            Fit = fit,
        };
    }
}
