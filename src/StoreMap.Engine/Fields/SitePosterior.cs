using StoreMap.Air;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>The log level at the cells with readings, given the readings. Exact readings are Gaussian; a censored one is stood for by the
/// Gaussian with which the level has the same mean and variance (expectation propagation: Minka, 2001; Rasmussen and Williams,
/// Gaussian Processes for Machine Learning, 2006, sections 3.5 and 3.6). Levels here are counted from the base level.</summary>
internal sealed class SitePosterior
{
    private const int MostSweeps = 30;
    private const double Damping = 0.8;

    private readonly FieldSite[] sites;
    private readonly int[] at;
    private readonly FieldValues values;
    private readonly double[] prior;
    private readonly int m;
    private readonly double[] root;
    private readonly double[] panel;
    private readonly double[] work;
    private double[] mean;
    private readonly double[] variance;
    private double halfLogDeterminant;

    private SitePosterior(ObservedPrior prior, FieldSite[] sites, int[] at, FieldValues values)
    {
        (this.sites, this.at, this.values, this.prior, m) = (sites, at, values, prior.Correlation, prior.Count);
        (Precision, Shift, root, mean, variance) = (new double[sites.Length], new double[sites.Length], new double[m], new double[m], new double[m]);
        (panel, work) = (new double[2 * m * m], new double[DenseCholesky.WorkLength(2 * m)]);
    }

    /// <summary>Precision w of each site: it counts as exp(−w g²/2 + b g).</summary>
    public double[] Precision { get; }

    /// <summary>Shift b of each site.</summary>
    public double[] Shift { get; }

    /// <summary>Logarithm of the probability of the readings (approximate where some are censored).</summary>
    public double LogEvidence { get; private set; }

    /// <summary>Fits the sites.</summary>
    /// <param name="prior">Correlations between the cells with readings.</param>
    /// <param name="sites">Readings.</param>
    /// <param name="at">Cell with readings of each.</param>
    /// <param name="values">Spread, turbulence, base level.</param>
    /// <param name="start">An earlier fit of the same sites to start from; may be null.</param>
    /// <param name="settled">Sweeps over the censored readings end when no level moves by more than this share of its deviation.</param>
    public static SitePosterior Fit(
        ObservedPrior prior, FieldSite[] sites, int[] at, FieldValues values, SitePosterior? start = null, double settled = 1e-4)
    {
        var fit = new SitePosterior(prior, sites, at, values);
        var censored = false;
        for (var k = 0; k < sites.Length; k++)
        {
            if (sites[k].Bound == ReadingBound.Exact)
            {
                fit.Precision[k] = 1 / sites[k].Variance(values.Turbulence);
                fit.Shift[k] = fit.Precision[k] * (sites[k].Level - values.Base);
                continue;
            }

            censored = true;
            if (start is null) continue;
            fit.Precision[k] = start.Precision[k];
            fit.Shift[k] = start.Shift[k] + (start.Precision[k] * (start.values.Base - values.Base));
        }

        fit.FindMarginals();
        for (var sweep = 0; censored && sweep < MostSweeps; sweep++)
        {
            var moved = fit.Sweep();
            fit.FindMarginals();
            if (moved < settled) break;
        }

        fit.LogEvidence = fit.Evidence();
        return fit;
    }

    /// <summary>Mean and variance of the level at a reading's cell, given all other readings.</summary>
    public (double Mean, double Variance) Without(int site)
    {
        var cavity = CavityOf(site);
        return (cavity.Mean + values.Base, cavity.Variance);
    }

    /// <summary>Sums a value per site over the cells with readings.</summary>
    public double[] PerCell(double[] perSite)
    {
        var sum = new double[m];
        for (var k = 0; k < at.Length; k++) sum[at[k]] += perSite[k];
        return sum;
    }

    // With S = diag(√w), B = I + S K S = L Lᵀ and X = K S L⁻ᵀ: variance K − X Xᵀ, mean K b − X Xᵀ b.
    private void FindMarginals()
    {
        var (w, b) = (PerCell(Precision), PerCell(Shift));
        var square = values.Spread * values.Spread;
        for (var i = 0; i < m; i++) root[i] = Math.Sqrt(Math.Max(0, w[i]));
        for (var j = 0; j < m; j++)
        {
            var column = panel.AsSpan(j * 2 * m, 2 * m);
            var correlation = prior.AsSpan(j * m, m);
            var factor = square * root[j];
            for (var i = 0; i < m; i++)
            {
                var value = factor * correlation[i];
                column[i] = root[i] * value;
                column[m + i] = value;
            }

            column[j] += 1;
        }

        DenseCholesky.FactorPanel(panel, 2 * m, m, work); // B ≥ I: it cannot fail
        var (pull, free) = (new double[m], new double[m]);
        Array.Fill(variance, square);
        halfLogDeterminant = 0;
        for (var j = 0; j < m; j++)
        {
            halfLogDeterminant += Math.Log(panel[(j * 2 * m) + j]);
            var x = panel.AsSpan((j * 2 * m) + m, m);
            var sum = 0.0;
            for (var i = 0; i < m; i++)
            {
                variance[i] -= x[i] * x[i];
                sum += x[i] * b[i];
            }

            DenseTiles.Subtract(sum, x, pull);
            DenseTiles.Subtract(-square * b[j], prior.AsSpan(j * m, m), free);
        }

        mean = new double[m];
        for (var i = 0; i < m; i++)
        {
            mean[i] = free[i] + pull[i];
            variance[i] = Math.Max(variance[i], 1e-12 * square);
        }
    }

    private double Sweep()
    {
        var moved = 0.0;
        for (var k = 0; k < sites.Length; k++)
        {
            if (sites[k].Bound == ReadingBound.Exact) continue;
            var cavity = CavityOf(k);
            var (newMean, newVariance) = cavity.Tilted();
            var precision = Math.Max((1 / newVariance) - (1 / cavity.Variance), 0);
            var shift = (newMean * ((1 / cavity.Variance) + precision)) - (cavity.Mean / cavity.Variance);
            var deviation = Math.Sqrt(variance[at[k]]);
            moved = Math.Max(moved, Math.Abs(newMean - mean[at[k]]) / deviation);
            Precision[k] += Damping * (precision - Precision[k]);
            Shift[k] += Damping * (shift - Shift[k]);
        }

        return moved;
    }

    // What everything but site k says of its level.
    private Cavity CavityOf(int k)
    {
        var (v, mu) = (variance[at[k]], mean[at[k]]);
        // Never less than nothing: a site can't hold more precision than its cell has.
        var precision = Math.Max((1 / v) - Precision[k], 1e-6 / v);
        var cavityVariance = 1 / precision;
        return new Cavity(
            cavityVariance * ((mu / v) - Shift[k]), cavityVariance, sites[k].Variance(values.Turbulence),
            sites[k].Bound == ReadingBound.Below ? 1 : -1, sites[k].Level - values.Base);
    }

    private double Evidence()
    {
        var b = PerCell(Shift);
        var log = -halfLogDeterminant;
        for (var i = 0; i < m; i++) log += 0.5 * b[i] * mean[i];
        for (var k = 0; k < sites.Length; k++)
        {
            if (sites[k].Bound == ReadingBound.Exact)
            {
                log += 0.5 * (Math.Log(Precision[k] / (2 * Math.PI)) - (Shift[k] * Shift[k] / Precision[k]));
                continue;
            }

            // The site's constant: its Gaussian must give what the reading gives against the cavity.
            var c = CavityOf(k);
            var gain = 1 + (Precision[k] * c.Variance);
            var together = (c.Mean / c.Variance) + Shift[k];
            log += c.LogProbability + (0.5 * Math.Log(gain))
                - (0.5 * ((together * together * c.Variance / gain) - (c.Mean * c.Mean / c.Variance)));
        }

        return log;
    }

    /// <summary>A normal level seen through a bound with noise: below (sign 1) or above (sign −1) a limit.</summary>
    private readonly record struct Cavity(double Mean, double Variance, double Noise, int Sign, double Limit)
    {
        private double Total => Math.Sqrt(Variance + Noise);

        private double Z => Sign * (Limit - Mean) / Total;

        /// <summary>Logarithm of the probability of the bound.</summary>
        public double LogProbability => CensoredNormal.LogBelow(Z);

        /// <summary>Mean and variance given the bound.</summary>
        public (double Mean, double Variance) Tilted()
        {
            var (z, total) = (Z, Total);
            var mills = CensoredNormal.Mills(z);
            return (Mean - (Sign * Variance * mills / total), Variance - (Variance * Variance * mills * (z + mills) / (total * total)));
        }
    }
}
