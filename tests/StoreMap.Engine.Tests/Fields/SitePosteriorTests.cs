using StoreMap.Air;
using StoreMap.Fields;
using StoreMap.Surveys;
using StoreMap.Tests.Air;
using StoreMap.Tests.Oracles;

namespace StoreMap.Tests.Fields;

public class SitePosteriorTests
{
    private static readonly FieldValues Unit = new(1, 1, 0, 0);

    // Values 32 of normal theory: E[Z | Z < 0] = -0.797885 with variance 1 - 2/π and probability 1/2; E[Z | Z < -1] = -1.525135.
    [Theory]
    [InlineData(0, -0.797885)]
    [InlineData(-1, -1.525135)]
    public void Fit_OneCensoredReading_HasTheTruncatedNormalsMean(double limit, double expected)
    {
        var prior = Prior(new double[,] { { 1 } });
        var site = new FieldSite(0, limit, 1e-4, 0, ReadingBound.Below);
        var fit = SitePosterior.Fit(prior, [site], [0], Unit);
        var variance = 1 / (1 + fit.Precision[0]);
        Assert.Equal(expected, variance * fit.Shift[0], 2e-4);
        if (limit == 0)
        {
            Assert.Equal(1 - (2 / Math.PI), variance, 2e-4);
            Assert.Equal(Math.Log(0.5), fit.LogEvidence, 1e-6);
        }
    }

    // Exact readings: the evidence is the multivariate normal density and the posterior that of simple kriging.
    [Fact]
    public void Fit_ExactReadings_AgreesWithDenseFormulas()
    {
        var correlation = Random(7, 3);
        var values = new FieldValues(1, 1.7, 0.3, 0.4);
        FieldSite[] sites = [.. Enumerable.Range(0, 9).Select(k => new FieldSite(0, Math.Sin(k), 0.2 + (0.05 * k), 0.1 * k, ReadingBound.Exact))];
        int[] at = [0, 1, 2, 3, 4, 5, 6, 3, 3];
        var fit = SitePosterior.Fit(Prior(correlation), sites, at, values);
        var covariance = new double[9, 9];
        for (var i = 0; i < 9; i++)
        {
            for (var j = 0; j < 9; j++)
                covariance[i, j] = (1.7 * 1.7 * correlation[at[i], at[j]]) + (i == j ? sites[i].Variance(0.3) : 0);
        }

        var (inverse, log) = DenseOracle.Invert(covariance);
        var z = sites.Select(s => s.Level - 0.4).ToArray();
        var expected = -0.5 * (log + (9 * Math.Log(2 * Math.PI)) + z.Zip(DenseOracle.Times(inverse, z)).Sum(p => p.First * p.Second));
        Assert.Equal(expected, fit.LogEvidence, 1e-9);
    }

    // Two correlated levels, one bounded above and one below, against integration on a grid.
    [Theory]
    [InlineData(0.6, 0.2, 0.5)]
    [InlineData(-0.8, 1.0, 0.3)]
    [InlineData(0.95, -0.5, 0.4)]
    public void Fit_TwoCensoredReadings_AgreeWithIntegration(double rho, double limit, double noise)
    {
        FieldSite[] sites = [new(0, limit, noise, 0, ReadingBound.Below), new(0, 0.7, noise, 0, ReadingBound.AtLeast)];
        var fit = SitePosterior.Fit(Prior(new double[,] { { 1, rho }, { rho, 1 } }), sites, [0, 1], Unit);
        double total = 0, first = 0, second = 0;
        const double Step = 0.02;
        for (var a = -6.0; a < 6; a += Step)
        {
            for (var b = -6.0; b < 6; b += Step)
            {
                var density = Math.Exp(-((a * a) - (2 * rho * a * b) + (b * b)) / (2 * (1 - (rho * rho)))) / (2 * Math.PI * Math.Sqrt(1 - (rho * rho)));
                var weight = density * Below((limit - a) / noise) * Below((b - 0.7) / noise) * Step * Step;
                total += weight;
                first += weight * a;
                second += weight * b;
            }
        }

        // Posterior mean from the sites: (K⁻¹ + W)⁻¹ b.
        var (precision, _) = DenseOracle.Invert(new double[,] { { 1, rho }, { rho, 1 } });
        for (var i = 0; i < 2; i++) precision[i, i] += fit.Precision[i];
        var mean = DenseOracle.Times(DenseOracle.Invert(precision).Inverse, fit.Shift);
        Assert.Equal(first / total, mean[0], 0.02); // the approximation's own error
        Assert.Equal(second / total, mean[1], 0.02);
        Assert.Equal(Math.Log(total), fit.LogEvidence, 0.02);
    }

    // Held sites change with the values as the full evidence does: exactly without censored readings, in slope with them.
    [Fact]
    public void HeldSites_OtherValues_ChangeLikeTheEvidence()
    {
        var grid = AirGrid.Build(AirPlans.Hall(6, 4), 0.5);
        var sites = Enumerable.Range(0, 12).Select(k => new FieldSite(
            grid.CellAt(new(0.4 + (0.45 * k), 1 + (k % 3))), Math.Cos(k), 0.3, 0.5, k % 3 == 1 ? ReadingBound.Below : ReadingBound.Exact)).ToArray();
        var bodies = FieldBody.Of(grid, sites, 2);
        var prior = ObservedPrior.Of(bodies[0].Factor(2));
        var (at, near) = (new FieldValues(2, 1, 0.3, 0), new FieldValues(2, 1.001, 0.3005, 0.001));
        var fit = SitePosterior.Fit(prior, bodies[0].Sites, bodies[0].At, at);
        var moved = SitePosterior.Fit(prior, bodies[0].Sites, bodies[0].At, near);
        var held = new HeldSites([prior], bodies, [fit], at);
        Assert.Equal(moved.LogEvidence - fit.LogEvidence, held.LogEvidence(near) - held.LogEvidence(at), 1e-4); // second order in the step
    }

    [Fact]
    public void ObservedPrior_OfABody_IsTheInverseOfItsPrecision()
    {
        var plan = AirPlans.Hall(3, 2) with { Obstacles = [AirPlans.Shelf("G1", 1, 0.6, 2, 1.1)] };
        var grid = AirGrid.Build(plan, 0.25);
        FieldSite[] sites = [.. new[] { (0.3, 0.3), (2.6, 1.6), (1.6, 0.3), (1.6, 1.6) }
            .Select(p => new FieldSite(grid.CellAt(new(p.Item1, p.Item2)), 0, 1, 0, ReadingBound.Exact))];
        var body = FieldBody.Of(grid, sites, 1.5)[0];
        var prior = ObservedPrior.Of(body.Factor(1.5));
        var (inverse, _) = DenseOracle.Invert(Matrices.Dense(body.Operator.Precision([.. Enumerable.Repeat(1.5, body.Operator.Count)])));
        for (var i = 0; i < 4; i++)
        {
            var a = body.Observed[i];
            Assert.Equal(Math.Sqrt(inverse[a, a]), prior.Deviation[i], 1e-9);
            for (var j = 0; j < 4; j++)
            {
                var b = body.Observed[j];
                Assert.Equal(inverse[a, b] / Math.Sqrt(inverse[a, a] * inverse[b, b]), prior.Correlation[(j * 4) + i], 1e-9);
            }
        }
    }

    private static double Below(double z) => 0.5 * Erfc(-z / Math.Sqrt(2));

    // Abramowitz and Stegun 7.1.26, absolute error 1.5e-7.
    private static double Erfc(double x)
    {
        var t = 1 / (1 + (0.3275911 * Math.Abs(x)));
        var tail = t * (0.254829592 + (t * (-0.284496736 + (t * (1.421413741 + (t * (-1.453152027 + (t * 1.061405429)))))))) * Math.Exp(-x * x);
        return x >= 0 ? tail : 2 - tail;
    }

    private static ObservedPrior Prior(double[,] correlation)
    {
        // A prior with this correlation: a factor whose trailing block is everything.
        var matrix = Matrices.FromLower(DenseOracle.Invert(correlation).Inverse);
        int[] order = [.. Enumerable.Range(0, matrix.Order)];
        return ObservedPrior.Of(SparseCholesky.Factor(matrix, Supernodes.Of(matrix, order, matrix.Order)));
    }

    private static double[,] Random(int n, int seed)
    {
        var random = new Random(seed);
        var points = Enumerable.Range(0, n).Select(_ => (X: random.NextDouble() * 3, Y: random.NextDouble() * 3)).ToArray();
        var correlation = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
                correlation[i, j] = Matern.Correlation(double.Hypot(points[i].X - points[j].X, points[i].Y - points[j].Y), 2);
        }

        return correlation;
    }
}
