using StoreMap.Surveys;

namespace StoreMap.Fields;

/// <summary>Finds range, spread, turbulence and base level under which the readings are likeliest.</summary>
/// <remarks>Each value moves on a short list of round numbers, one value at a time, uphill, so the answer does not hang on last bits.
/// A weak prior about the defaults decides where the readings don't. Work is bounded by a number of steps.</remarks>
internal sealed class FieldSearch
{
    private const int MostCells = 400;
    private const int MostRounds = 4;
    private const double Settled = 3e-3; // its square is what the evidence feels

    private static readonly double[] Ranges = [1, 1.5, 2, 3, 4];
    private static readonly double[] Spreads = [0.25, 0.35, 0.5, 0.7, 1, 1.4, 2, 2.8, 4];
    private static readonly double[] Turbulences = [0.05, 0.1, 0.15, 0.2, 0.3, 0.45, 0.6];
    private static readonly double[] Bases = [-2, -1.5, -1, -0.75, -0.5, -0.25, 0, 0.25, 0.5, 1];

    private readonly IReadOnlyList<FieldBody> bodies;
    private readonly FieldValues centre;
    private readonly Action step;
    private readonly Dictionary<int, Trial> trials = [];

    private FieldSearch(IReadOnlyList<FieldBody> bodies, FieldValues centre, Action step) =>
        (this.bodies, this.centre, this.step) = (bodies, centre, step);

    /// <summary>Searches.</summary>
    /// <param name="bodies">Bodies of air with their readings.</param>
    /// <param name="start">Where to start, and the middle of the prior.</param>
    /// <param name="step">Called before each range tried: progress and cancelling.</param>
    public static FieldValues Best(IReadOnlyList<FieldBody> bodies, FieldValues start, Action step) =>
        new FieldSearch([.. bodies.Select(Thinned)], start, step).Climb();

    private FieldValues Climb()
    {
        var at = Nearest(Ranges, centre.Range);
        Try(at);
        while (true)
        {
            var better = new[] { at - 1, at + 1 }.Where(i => i >= 0 && i < Ranges.Length).OrderByDescending(i => Try(i).Score).First();
            if (Try(better).Score <= Try(at).Score) return Try(at).Values;
            at = better;
        }
    }

    private Trial Try(int range)
    {
        if (trials.TryGetValue(range, out var known)) return known;
        step();
        var near = trials.Count == 0 ? null : trials.MinBy(t => (Math.Abs(t.Key - range), t.Key)).Value;
        var priors = bodies.Select(b => ObservedPrior.Of(b.Factor(Ranges[range]))).ToArray();
        return trials[range] = ClimbAt(priors, near is null ? Rounded(Ranges[range]) : near.Values with { Range = Ranges[range] }, near?.Fits);
    }

    // With the stand-ins of the censored readings held, all is Gaussian and one trial costs one factorisation; they are then
    // renewed. The slopes of the held and the full evidence agree where the stand-ins have settled (Rasmussen and Williams 2006, 5.5.2).
    private Trial ClimbAt(ObservedPrior[] priors, FieldValues values, SitePosterior[]? fits)
    {
        for (var round = 0; ; round++)
        {
            fits = [.. priors.Select((p, i) => SitePosterior.Fit(p, bodies[i].Sites, bodies[i].At, values, fits?[i], Settled))];
            var score = fits.Sum(f => f.LogEvidence) + Prior(values);
            if (round == MostRounds) return new Trial(values, score, fits);
            var held = new HeldSites(priors, bodies, fits, values);
            var next = UphillFrom(values, v => held.LogEvidence(v) + Prior(v));
            if (next == values) return new Trial(values, score, fits);
            values = next;
        }
    }

    private static FieldValues UphillFrom(FieldValues values, Func<FieldValues, double> score)
    {
        var best = score(values);
        for (var moved = true; moved;)
        {
            moved = false;
            foreach (var next in Neighbours(values))
            {
                var other = score(next);
                if (other <= best + 1e-9) continue;
                (best, values, moved) = (other, next, true);
                break;
            }
        }

        return values;
    }

    private static IEnumerable<FieldValues> Neighbours(FieldValues v)
    {
        foreach (var x in Beside(Spreads, v.Spread)) yield return v with { Spread = x };
        foreach (var x in Beside(Bases, v.Base)) yield return v with { Base = x };
        foreach (var x in Beside(Turbulences, v.Turbulence)) yield return v with { Turbulence = x };
    }

    private static IEnumerable<double> Beside(double[] list, double value)
    {
        var i = Nearest(list, value);
        if (i + 1 < list.Length) yield return list[i + 1];
        if (i > 0) yield return list[i - 1];
    }

    // Logarithm of the prior: normal about the centre, in logarithms but for the base level.
    private double Prior(FieldValues v) =>
        -0.5 * (Square(Math.Log(v.Range / centre.Range) / 0.6) + Square(Math.Log(v.Spread / centre.Spread) / 0.6)
            + Square(Math.Log(v.Turbulence / centre.Turbulence) / 0.7) + Square((v.Base - centre.Base) / 0.7));

    private FieldValues Rounded(double range) => new(
        range, Spreads[Nearest(Spreads, centre.Spread)], Turbulences[Nearest(Turbulences, centre.Turbulence)], Bases[Nearest(Bases, centre.Base)]);

    private static int Nearest(double[] list, double value) => Enumerable.Range(0, list.Length).MinBy(i => Math.Abs(list[i] - value));

    private static double Square(double x) => x * x;

    // A log of thousands of readings says no more about four numbers than some hundred of its cells.
    private static FieldBody Thinned(FieldBody body) => body.Observed.Length <= MostCells ? body : body.Only(MostCells);

    private sealed record Trial(FieldValues Values, double Score, SitePosterior[] Fits);
}
