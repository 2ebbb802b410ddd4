namespace StoreMap.Fields;

/// <summary>Fits a variogram to an empirical one by weighted least squares, weights pairs / distance².</summary>
/// <param name="Model">The fitted model.</param>
/// <param name="SquaredError">The weighted sum of squares that is left.</param>
/// <param name="AtLimit">True when the range ran into a limit of the search: the bins don't show a sill, take care.</param>
public sealed record VariogramFit(VariogramModel Model, double SquaredError, bool AtLimit)
{
    private const int Steps = 240;

    /// <summary>Fits a model of a given shape.</summary>
    /// <param name="bins">At least three, with pairs and distances above 0.</param>
    /// <param name="shape">Shape of the model.</param>
    /// <returns>The best model: nugget and partial sill at least 0, the range between a tenth of the shortest and ten times
    /// the longest distance.</returns>
    /// <exception cref="ArgumentException">There are fewer than three bins, or no difference at all between the values.</exception>
    /// <remarks>For a given range the best nugget and partial sill are a linear problem of two unknowns, solved in closed form
    /// with both kept at or above 0; the range is found by a scan on a logarithmic scale and golden-section search around its
    /// best step, so no starting value is needed. Weights: Cressie 1985 in the form the R package gstat uses by default.</remarks>
    public static VariogramFit To(IReadOnlyList<VariogramBin> bins, VariogramShape shape)
    {
        var used = bins.Where(b => b.Pairs > 0 && b.Distance > 0).ToArray();
        if (used.Length < 3 || used.All(b => b.Gamma == 0))
            throw new ArgumentException("Fitting a variogram needs three or more bins and some difference between the values.", nameof(bins));

        double low = Math.Log(used.Min(b => b.Distance) / 10), high = Math.Log(used.Max(b => b.Distance) * 10);
        var best = 0;
        var bestError = double.PositiveInfinity;
        for (var k = 0; k <= Steps; k++)
        {
            var error = At(low + ((high - low) * k / Steps)).Error;
            if (error < bestError) (best, bestError) = (k, error);
        }

        var logRange = GoldenSection(
            low + ((high - low) * Math.Max(0, best - 1) / Steps), low + ((high - low) * Math.Min(Steps, best + 1) / Steps), x => At(x).Error);
        var (nugget, sill, left) = At(logRange);
        return new VariogramFit(new VariogramModel(shape, nugget, sill, Math.Exp(logRange)), left, best is 0 or Steps);

        (double Nugget, double Sill, double Error) At(double logarithm) => Linear(used, shape, Math.Exp(logarithm));
    }

    private static (double Nugget, double Sill, double Error) Linear(VariogramBin[] bins, VariogramShape shape, double range)
    {
        double w = 0, wf = 0, wff = 0, wg = 0, wfg = 0;
        foreach (var bin in bins)
        {
            double weight = bin.Pairs / (bin.Distance * bin.Distance), f = VariogramModel.Rise(shape, bin.Distance / range);
            w += weight;
            wf += weight * f;
            wff += weight * f * f;
            wg += weight * bin.Gamma;
            wfg += weight * f * bin.Gamma;
        }

        var determinant = (w * wff) - (wf * wf);
        var free = determinant > 1e-12 * w * wff
            ? (Nugget: ((wg * wff) - (wf * wfg)) / determinant, Sill: ((w * wfg) - (wf * wg)) / determinant)
            : (Nugget: -1, Sill: -1);
        if (free is { Nugget: >= 0, Sill: >= 0 }) return (free.Nugget, free.Sill, Error(bins, shape, range, free.Nugget, free.Sill));
        double flat = wg / w, rising = wfg / wff;
        double flatError = Error(bins, shape, range, flat, 0), risingError = Error(bins, shape, range, 0, rising);
        return risingError <= flatError ? (0, rising, risingError) : (flat, 0, flatError);
    }

    private static double Error(VariogramBin[] bins, VariogramShape shape, double range, double nugget, double sill)
    {
        var sum = 0.0;
        foreach (var bin in bins)
        {
            var difference = bin.Gamma - nugget - (sill * VariogramModel.Rise(shape, bin.Distance / range));
            sum += bin.Pairs / (bin.Distance * bin.Distance) * difference * difference;
        }

        return sum;
    }

    private static double GoldenSection(double low, double high, Func<double, double> error)
    {
        const double Ratio = 0.6180339887498949;
        double a = high - (Ratio * (high - low)), b = low + (Ratio * (high - low));
        double errorA = error(a), errorB = error(b);
        while (high - low > 1e-9)
        {
            if (errorA <= errorB)
            {
                (high, b, errorB) = (b, a, errorA);
                a = high - (Ratio * (high - low));
                errorA = error(a);
            }
            else
            {
                (low, a, errorA) = (a, b, errorB);
                b = low + (Ratio * (high - low));
                errorB = error(b);
            }
        }

        return (low + high) / 2;
    }
}
