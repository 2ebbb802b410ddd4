using StoreMap.Air;
using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>The evidence of readings whose censored ones are held as Gaussians, for trials of other spreads, turbulences and base levels.
/// Values of different instances don't compare: what the held readings add is left out.</summary>
internal sealed class HeldSites(ObservedPrior[] priors, IReadOnlyList<FieldBody> bodies, SitePosterior[] fits, FieldValues held)
{
    /// <summary>Logarithm of the probability, up to a constant.</summary>
    public double LogEvidence(FieldValues values)
    {
        var log = 0.0;
        for (var b = 0; b < bodies.Count; b++) log += LogEvidence(priors[b], bodies[b], fits[b], values);
        return log;
    }

    private double LogEvidence(ObservedPrior prior, FieldBody body, SitePosterior fit, FieldValues values)
    {
        var m = prior.Count;
        var (w, shift) = (new double[m], new double[m]);
        var log = 0.0;
        for (var k = 0; k < body.Sites.Length; k++)
        {
            var site = body.Sites[k];
            var exact = site.Bound == ReadingBound.Exact;
            var precision = exact ? 1 / site.Variance(values.Turbulence) : fit.Precision[k];
            // A held site counts as exp(−w g²/2 + b g) of the level g itself; counted from another base it shifts.
            var b = exact ? precision * (site.Level - values.Base) : fit.Shift[k] + (precision * (held.Base - values.Base));
            w[body.At[k]] += precision;
            shift[body.At[k]] += b;
            if (exact) log += 0.5 * (Math.Log(precision) - (b * b / precision));
            else log += (0.5 * precision * values.Base * values.Base) + (b * values.Base);
        }

        return log + Gaussian(prior, w, shift, values.Spread * values.Spread);
    }

    // −½ ln|I + S K S| + ½ bᵀ (K⁻¹ + W)⁻¹ b; for the second term (K⁻¹ + W)⁻¹ b = K (b − S B⁻¹ S K b).
    private static double Gaussian(ObservedPrior prior, double[] w, double[] shift, double square)
    {
        var m = prior.Count;
        var root = Array.ConvertAll(w, x => Math.Sqrt(Math.Max(0, x)));
        var free = new double[m];
        for (var j = 0; j < m; j++) DenseTiles.Subtract(-square * shift[j], prior.Correlation.AsSpan(j * m, m), free);
        // One more row below B: the factorisation turns (S K b)ᵀ into (L⁻¹ S K b)ᵀ.
        var panel = new double[(m + 1) * m];
        for (var j = 0; j < m; j++)
        {
            var column = panel.AsSpan(j * (m + 1), m + 1);
            var correlation = prior.Correlation.AsSpan(j * m, m);
            for (var i = j; i < m; i++) column[i] = square * root[i] * root[j] * correlation[i];
            column[j] += 1;
            column[m] = root[j] * free[j];
        }

        DenseCholesky.FactorPanel(panel, m + 1, m, new double[DenseCholesky.WorkLength(m + 1)]); // B ≥ I: it cannot fail
        var log = 0.0;
        for (var j = 0; j < m; j++)
        {
            var y = panel[(j * (m + 1)) + m];
            log += (0.5 * ((shift[j] * free[j]) - (y * y))) - Math.Log(panel[(j * (m + 1)) + j]);
        }

        return log;
    }
}
