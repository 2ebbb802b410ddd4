namespace StoreMap.Surveys;

/// <summary>One reading as the background sees it.</summary>
/// <param name="Seconds">Time, seconds; ascending.</param>
/// <param name="Ppm">Number shown, or the limit.</param>
/// <param name="Bound">How the number bounds the truth.</param>
/// <param name="RoomAir">True when it was taken in the room's air and not at a fixture.</param>
internal readonly record struct AirSample(double Seconds, double Ppm, ReadingBound Bound, bool RoomAir);

/// <summary>What is believed of a level before its readings are seen.</summary>
/// <param name="Mean">ppm.</param>
/// <param name="Deviation">ppm.</param>
internal readonly record struct LevelPrior(double Mean, double Deviation);

/// <summary>A fitted background.</summary>
/// <param name="Level">Level at each sample, ppm, at least 0 (N).</param>
/// <param name="Deviation">Its standard deviation, ppm (N).</param>
/// <param name="Quiet">Probability that the sample shows the background alone, [0, 1] (N).</param>
/// <param name="Scatter">Spread of the quiet samples about the level beyond what noise explains is included, ppm.</param>
internal sealed record FittedBackground(double[] Level, double[] Deviation, double[] Quiet, double Scatter);

/// <summary>Estimates a room's background from readings of which some show gas of their own: each is either quiet (level plus noise) or a
/// hit (level plus a positive, exponential excess). Readings below the limit count as censored: through their probability of being
/// below, never as a number. The mode is found by iterated weighted smoothing (Newton's method for the censored terms), from several
/// starts, and the likeliest is kept. Formulas: docs/readings.md.</summary>
internal sealed class BackgroundFit
{
    // Chance that a reading shows gas of its own, before it is seen: at a fixture, and in the room's air.
    private const double HitChanceAtFixture = 0.3;
    private const double HitChanceInAir = 0.02;
    private const int MostIterations = 40;
    private const int ScatterPasses = 3;

    private readonly IReadOnlyList<AirSample> samples;
    private readonly MonitorNoise noise;
    private readonly double hitScale;
    private readonly LevelPrior prior;
    private readonly double[] steps;

    /// <summary>Prepares a fit.</summary>
    /// <param name="samples">In time order; at least one.</param>
    /// <param name="noise">The monitor's noise.</param>
    /// <param name="hitScale">Mean excess of a hit, ppm.</param>
    /// <param name="driftVariance">Variance of the level per second, ppm².</param>
    /// <param name="prior">The level beforehand.</param>
    public BackgroundFit(
        IReadOnlyList<AirSample> samples, MonitorNoise noise, double hitScale, double driftVariance, LevelPrior prior)
    {
        (this.samples, this.noise, this.hitScale, this.prior) = (samples, noise, hitScale, prior);
        steps = new double[samples.Count];
        for (var i = 1; i < steps.Length; i++) steps[i] = driftVariance * (samples[i].Seconds - samples[i - 1].Seconds);
    }

    /// <summary>Fits the level.</summary>
    /// <param name="twoSidedScatter">True where spikes belong to the background itself (sprays).</param>
    public FittedBackground Fit(bool twoSidedScatter)
    {
        var scatter = 0.0;
        FittedBackground? best = null;
        for (var pass = 0; pass < ScatterPasses; pass++)
        {
            var bestScore = double.NegativeInfinity;
            foreach (var start in Starts())
            {
                var (fit, score) = FitFrom(start, scatter);
                if (score > bestScore) (best, bestScore) = (fit, score);
            }

            scatter = ScatterOf(best!, twoSidedScatter);
        }

        return best! with { Scatter = scatter };
    }

    private IEnumerable<double> Starts()
    {
        var seen = samples.Where(s => s.Bound != ReadingBound.AtLeast)
            .Select(s => s.Bound == ReadingBound.Below ? 0 : s.Ppm).Order().ToArray();
        yield return Math.Max(0, prior.Mean);
        if (seen.Length == 0) yield break;
        yield return seen[seen.Length / 5];
        var air = samples.Where(s => s.RoomAir && s.Bound == ReadingBound.Exact).Select(s => s.Ppm).Order().ToArray();
        if (air.Length > 0) yield return air[(air.Length - 1) / 2];
    }

    private (FittedBackground Fit, double Score) FitFrom(double start, double scatter)
    {
        var n = samples.Count;
        double[] level = new double[n], variance = new double[n], quiet = new double[n];
        double[] values = new double[n], precisions = new double[n], next = new double[n];
        Array.Fill(level, start);
        for (var iteration = 0; iteration < MostIterations; iteration++)
        {
            for (var i = 0; i < n; i++)
            {
                var s = Sigma(samples[i], level[i], scatter);
                quiet[i] = QuietChance(samples[i], level[i], s);
                (values[i], precisions[i]) = Working(samples[i], level[i], s, quiet[i]);
            }

            LevelSmoother.Smooth(steps, values, precisions, prior.Mean, prior.Deviation * prior.Deviation, next, variance);
            var change = 0.0;
            for (var i = 0; i < n; i++)
            {
                next[i] = Math.Max(0, next[i]);
                change = Math.Max(change, Math.Abs(next[i] - level[i]));
                level[i] = next[i];
            }

            if (change < 1e-9) break;
        }

        var deviation = new double[n];
        for (var i = 0; i < n; i++) deviation[i] = Math.Min(Math.Sqrt(variance[i]), LimitOfZero(level[i]));
        return (new FittedBackground(level, deviation, quiet, scatter), Score(level, scatter));
    }

    // A level at zero in a monitor that shows nothing lies somewhere between 0 and its limit: a rectangular distribution
    // has the deviation limit/√12 (JCGM 100:2008, 4.3.7).
    private double LimitOfZero(double level) => level > 0 ? double.PositiveInfinity : noise.DetectionPpm / Math.Sqrt(12);

    private double Sigma(AirSample sample, double level, double scatter) =>
        Math.Sqrt(noise.Variance(sample.Bound == ReadingBound.Exact ? sample.Ppm : level) + (scatter * scatter));

    private static double HitChance(AirSample sample) => sample.RoomAir ? HitChanceInAir : HitChanceAtFixture;

    private double QuietChance(AirSample sample, double level, double sigma)
    {
        var (quiet, hit) = Likelihoods(sample, level, sigma);
        return quiet + hit > 0 ? quiet / (quiet + hit) : 0;
    }

    private (double Quiet, double Hit) Likelihoods(AirSample sample, double level, double sigma)
    {
        var chance = HitChance(sample);
        var over = sample.Ppm - level;
        return sample.Bound switch
        {
            ReadingBound.Below => (
                (1 - chance) * CensoredNormal.Below(over / sigma), chance * (over > 0 ? 1 - Math.Exp(-over / hitScale) : 0)),
            ReadingBound.AtLeast => (0, chance * Math.Exp(-Math.Max(0, over) / hitScale)),
            _ => (
                (1 - chance) * CensoredNormal.Density(over / sigma) / sigma,
                over > 0 ? chance * Math.Exp(-over / hitScale) / hitScale : 0),
        };
    }

    private static (double Value, double Precision) Working(AirSample sample, double level, double sigma, double quiet)
    {
        if (sample.Bound == ReadingBound.AtLeast) return (level, 0);
        if (sample.Bound == ReadingBound.Exact) return (sample.Ppm, quiet / (sigma * sigma));
        // Newton's step for log Φ((limit − level)/σ): slope −λ/σ, curvature λ(λ + a)/σ².
        var a = (sample.Ppm - level) / sigma;
        var mills = CensoredNormal.Mills(a);
        var curve = mills * (mills + a);
        return curve < 1e-12 ? (level, 0) : (level - (sigma / (mills + a)), quiet * curve / (sigma * sigma));
    }

    private double Score(double[] level, double scatter)
    {
        var score = 0.0;
        for (var i = 0; i < level.Length; i++)
        {
            var (quiet, hit) = Likelihoods(samples[i], level[i], Sigma(samples[i], level[i], scatter));
            score += Math.Log(Math.Max(quiet + hit, 1e-300));
        }

        var z = (level[0] - prior.Mean) / prior.Deviation;
        score -= 0.5 * z * z;
        for (var i = 1; i < level.Length; i++)
        {
            if (steps[i] > 0) score -= 0.5 * (level[i] - level[i - 1]) * (level[i] - level[i - 1]) / steps[i];
        }

        return score;
    }

    // Robust spread of what is not explained by the monitor's noise: median absolute deviation · 1.4826 (Rousseeuw and Croux 1993),
    // of the lower half unless spikes belong to the background.
    private double ScatterOf(FittedBackground fit, bool twoSided)
    {
        var off = new List<double>();
        for (var i = 0; i < samples.Count; i++)
        {
            if (samples[i].Bound != ReadingBound.Exact) continue;
            var d = samples[i].Ppm - fit.Level[i];
            if (twoSided || d <= 0) off.Add(Math.Abs(d));
        }

        if (off.Count < 3) return 0;
        off.Sort();
        var middle = off.Count / 2;
        var spread = 1.4826 * (off.Count % 2 == 1 ? off[middle] : 0.5 * (off[middle - 1] + off[middle]));
        var explained = noise.Variance(fit.Level[0]);
        return Math.Sqrt(Math.Max(0, (spread * spread) - explained));
    }
}
