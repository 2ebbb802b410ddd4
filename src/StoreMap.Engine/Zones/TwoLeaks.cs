using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>One of two leaks as the likeliest pair has it.</summary>
/// <param name="Ppm">Its trace, per block and reading.</param>
/// <param name="Points">Cell, air setting and strength, per block.</param>
internal sealed record PartnerLeak(double[][] Ppm, FitPoint[] Points);

/// <summary>Two leaks in one line-up: every pair of places on a coarse grid near gas, each with the strengths that fit best and
/// Laplace's approximation round them; then each leak placed finely given likely partners.</summary>
/// <remarks>Laplace: the integral of exp(g) over the strengths' logarithms is exp(g*) 2 pi / sqrt(det H) with H the curvature at the
/// best fit (Gauss-Newton). The calm air settings stand for all.</remarks>
internal sealed class TwoLeaks
{
    private const double GridMetres = 0.75;

    /// <summary>Two leaks nearer than this are one, metres.</summary>
    private const double LeastApart = 1.2;

    /// <summary>A leak that counts has gas seen this near, metres.</summary>
    private const double GasWithin = 2.2;

    /// <summary>Pairs this far behind the best, by middle air alone, are not looked at closer; natural logarithm.</summary>
    private const double Hopeless = 9;

    private const int Partners = 6;

    private readonly Lazy<(double[] Left, double[] Right)> places;

    private TwoLeaks(double logTotal, Func<(double[] Left, double[] Right)> place, PartnerLeak leftBest, PartnerLeak rightBest)
    {
        LogTotal = logTotal;
        places = new(place);
        LeftBest = leftBest;
        RightBest = rightBest;
    }

    /// <summary>Log of expected pairs times likelihood, comparable with <see cref="OneLeak.LogTotal"/>.</summary>
    public double LogTotal { get; }

    /// <summary>Probability per cell of the leak nearer the axis' beginning. Worked out when first asked for: most pairs are not likely enough.</summary>
    public double[] Left => places.Value.Left;

    /// <summary>Probability per cell of the other.</summary>
    public double[] Right => places.Value.Right;

    /// <summary>The left leak of the likeliest pair.</summary>
    public PartnerLeak LeftBest { get; }

    /// <summary>The right leak of the likeliest pair.</summary>
    public PartnerLeak RightBest { get; }

    /// <summary>Fits two leaks; null when no two places have gas near them.</summary>
    /// <param name="study">The line-up.</param>
    /// <param name="factor">Factor on the expectation of a second leak.</param>
    /// <param name="outside">Known gas from outside per block and reading; null for none.</param>
    public static TwoLeaks? Fit(LineUpStudy study, double factor, double[][]? outside)
    {
        var axis = study.Axis;
        var gas = study.Blocks.SelectMany(b => b.Readings).Where(r => r.ShowsGas).Select(r => r.S).ToArray();
        var places = Math.Max(2, (int)Math.Round(axis.Length / GridMetres));
        var expected = new double[places];
        var found = new string?[places];
        for (var c = 0; c < axis.Count; c++)
        {
            var p = Math.Min(places - 1, (int)(axis.Centres[c] / axis.Length * places));
            expected[p] += study.Expected[c];
            found[p] ??= study.Found.Length == 0 ? null : study.Found[c];
        }

        var near = Enumerable.Range(0, places).Where(p => gas.Any(s => Math.Abs(s - ((p + 0.5) * axis.Length / places)) < GasWithin)).ToArray();
        var cells = near.Select(p => axis.CellAt((p + 0.5) * axis.Length / places)).ToArray();
        var fits = study.Fits[0].Select((f, b) => new PairFit(f, cells, outside?[b])).ToArray();
        var rough = new List<(int Left, int Right, double Log)>();
        for (var l = 0; l < cells.Length; l++)
        {
            for (var r = l + 1; r < cells.Length; r++)
            {
                if (axis.Centres[cells[r]] - axis.Centres[cells[l]] >= LeastApart) rough.Add((l, r, Prior(l, r) + fits.Sum(f => f.RoughLog(l, r))));
            }
        }

        if (rough.Count == 0) return null;
        var best = rough.Max(p => p.Log);
        var pairs = rough.Where(p => p.Log > best - Hopeless)
            .Select(p => (p.Left, p.Right, Log: Prior(p.Left, p.Right) + Likelihood(study, fits, p.Left, p.Right))).ToList();
        var total = NormalLaw.LogSum([.. pairs.Select(p => p.Log)]);
        var first = pairs.OrderByDescending(p => p.Log).ThenBy(p => p.Left).ThenBy(p => p.Right).Take(Partners).ToArray();
        return new TwoLeaks(
            total, () => Places(study, fits, first, cells, outside), Partner(fits, first[0].Left, first[0].Right, cells, true, outside), Partner(fits, first[0].Left, first[0].Right, cells, false, outside));

        // A leak confirmed behind a panel is one leak: it says nothing for another behind the same.
        double Prior(int l, int r) =>
            Math.Log(expected[near[l]] * expected[near[r]] * factor / (found[near[l]] is { } panel && panel == found[near[r]] ? study.FoundOdds : 1));
    }

    // Each leak of the likeliest pairs placed finely beside the other.
    private static (double[] Left, double[] Right) Places(LineUpStudy study, PairFit[] fits, (int Left, int Right, double Log)[] pairs, int[] cells, double[][]? outside)
    {
        var sum = NormalLaw.LogSum([.. pairs.Select(p => p.Log)]);
        var (left, right) = (new double[study.Axis.Count], new double[study.Axis.Count]);
        foreach (var (l, r, log) in pairs)
        {
            var weight = Math.Exp(log - sum);
            if (weight < 0.02) continue;
            Place(study, Partner(fits, l, r, cells, ofLeft: false, outside).Ppm, 0, cells[r], cells[l], weight, left);
            Place(study, Partner(fits, l, r, cells, ofLeft: true, outside).Ppm, cells[l], study.Axis.Count - 1, cells[r], weight, right);
        }

        Normalise(left);
        Normalise(right);
        return (left, right);
    }

    // By the likeliest strengths in both states of the air, where both were read.
    private static double Likelihood(LineUpStudy study, PairFit[] fits, int left, int right)
    {
        var log = fits[0].Log(left, right, out var moving);
        for (var b = 1; b < fits.Length; b++)
        {
            log += fits[b].Log(left, right, out var still);
            if (study.Links?[(int)SourceKind.Coil] is not { } link) continue;
            log += StillStrength.LogTogether(link, moving.Left, still.Left) + StillStrength.LogTogether(link, moving.Right, still.Right);
        }

        return log;
    }

    private static PartnerLeak Partner(PairFit[] fits, int left, int right, int[] cells, bool ofLeft, double[][]? outside)
    {
        var ppm = new double[fits.Length][];
        var points = new FitPoint[fits.Length];
        for (var b = 0; b < fits.Length; b++)
        {
            ppm[b] = fits[b].Trace(left, right, ofLeft, out var setting, out var logStrength);
            points[b] = new FitPoint(cells[ofLeft ? left : right], setting, logStrength, 0);
            for (var i = 0; outside is not null && i < ppm[b].Length; i++) ppm[b][i] += outside[b][i];
        }

        return new PartnerLeak(ppm, points);
    }

    // One leak's place given its partner's trace, within a few metres of where the pair had it.
    private static void Place(LineUpStudy study, double[][] partner, int from, int to, int near, double weight, double[] place)
    {
        var axis = study.Axis;
        while (axis.Centres[near] - axis.Centres[from] > 3) from++;
        while (axis.Centres[to] - axis.Centres[near] > 3) to--;
        var log = Enumerable.Range(0, axis.Count).Select(c => Math.Log(study.Expected[c])).ToArray();
        for (var b = 0; b < study.Blocks.Count; b++)
        {
            var one = study.Fits[0][b].OneLeak(study.Blocks[b].TablesFor(partner[b]), from, to, 2, FitEffort.Rough, null);
            for (var c = 0; c < log.Length; c++) log[c] += one[c];
        }

        var total = NormalLaw.LogSum(log);
        for (var c = 0; c < log.Length; c++) place[c] += weight * Math.Exp(log[c] - total);
    }

    private static void Normalise(double[] mass)
    {
        var sum = mass.Sum();
        for (var c = 0; c < mass.Length; c++) mass[c] /= sum;
    }
}
