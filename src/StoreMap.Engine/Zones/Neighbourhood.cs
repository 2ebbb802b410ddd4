using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>What a neighbourhood's readings say together: which line-ups leak, or whether the gas comes from outside the cases.</summary>
/// <param name="LeakProbability">Per line-up of the neighbourhood, probability that it holds a leak.</param>
/// <param name="AboveProbability">Per line-up, probability that a source above it lets its gas into it.</param>
/// <param name="Leaks">Per line-up, its one-leak posterior in the likeliest explanation with a leak there.</param>
/// <param name="Outside">Per line-up, gas from outside in that explanation; null when none matters.</param>
/// <param name="ElsewhereProbability">Probability of a source outside the cases.</param>
/// <param name="ElsewhereShares">Posterior share of each candidate, given a source outside.</param>
/// <param name="Candidates">The candidates.</param>
internal sealed record NeighbourhoodAnswer(
    double[] LeakProbability, double[] AboveProbability, OneLeak[] Leaks, double[][]?[] Outside, double ElsewhereProbability, double[] ElsewhereShares, IReadOnlyList<OffCaseSource> Candidates);

/// <summary>A leak in a line-up, or a source above it, within an explanation.</summary>
/// <param name="Study">Index of the line-up.</param>
/// <param name="Outside">Mean gas from outside at its readings; null when none matters.</param>
/// <param name="AboveShare">Probability that the source is above, given one or the other.</param>
/// <param name="AbovePlace">Probability per cell that it is above it, if it is above.</param>
internal sealed record OwnLeak(int Study, double[][]? Outside, double AboveShare, double[] AbovePlace);

/// <summary>Compares explanations of the readings of line-ups that share air: own leaks, a stronger neighbour's gas across the aisle,
/// a source outside the cases. Stronger line-ups are settled first, and what they spill is taken off the weaker ones.</summary>
internal sealed class Neighbourhood
{
    /// <summary>Amounts of gas from outside beside which a leak is worked out.</summary>
    private const int Amounts = 7;

    private readonly IReadOnlyList<LineUpStudy> studies;
    private readonly IReadOnlyList<ReadingBlock> witnesses;
    private readonly OneLeak[] alone;
    private readonly double[] logFurther;
    private readonly IReadOnlyList<OffCaseSource> candidates;
    private readonly double elsewherePrior;
    private readonly SpilledGas spilled;
    private double logTotal = double.NegativeInfinity;
    private double logElsewhere = double.NegativeInfinity;
    private readonly double[] logLeak;
    private readonly OwnLeak?[] bestLeak;
    private readonly double[] logAbove;
    private readonly OneLeak?[] roughAlone;
    private readonly Dictionary<(double[], double[]), double> shared = [];
    private readonly double[] bestLog;

    /// <summary>Prepares the comparison.</summary>
    /// <param name="studies">Line-ups with gas, strongest first.</param>
    /// <param name="alone">Their one-leak posteriors, each by itself.</param>
    /// <param name="logFurther">Per line-up, what a possible second leak adds to the log of its evidence for leaks.</param>
    /// <param name="witnesses">Blocks nearby that show no gas, and open-air blocks.</param>
    /// <param name="candidates">Sources outside the cases.</param>
    /// <param name="elsewherePrior">Expected sources outside the cases here.</param>
    /// <param name="ways">Ways through the aisles.</param>
    public Neighbourhood(
        IReadOnlyList<LineUpStudy> studies, OneLeak[] alone, double[] logFurther, IReadOnlyList<ReadingBlock> witnesses, IReadOnlyList<OffCaseSource> candidates,
        double elsewherePrior, AisleWays ways)
    {
        this.studies = studies;
        this.alone = alone;
        this.logFurther = logFurther;
        this.witnesses = witnesses;
        this.candidates = candidates;
        this.elsewherePrior = elsewherePrior;
        spilled = new SpilledGas(studies, alone, witnesses, ways);
        logLeak = new double[studies.Count];
        bestLog = new double[studies.Count];
        Array.Fill(logLeak, double.NegativeInfinity);
        Array.Fill(bestLog, double.NegativeInfinity);
        logAbove = [.. logLeak];
        bestLeak = new OwnLeak?[studies.Count];
        roughAlone = new OneLeak?[studies.Count];
    }

    /// <summary>Sums the explanations.</summary>
    public NeighbourhoodAnswer Answer()
    {
        Explain(0, [Outside.None(studies, witnesses)], [0.0], 0, [], elsewhere: false);
        var (samples, weights, shares) = OffCaseGrid.Samples(studies, witnesses, candidates, elsewherePrior);
        if (samples.Count > 0) Explain(0, samples, weights, 0, [], elsewhere: true);
        var leaks = new OneLeak[studies.Count];
        for (var i = 0; i < leaks.Length; i++)
        {
            var matters = NormalLaw.LogAdd(logLeak[i], logAbove[i]) > logTotal - 4;
            leaks[i] = bestLeak[i]?.Outside is { } ppm && matters ? studies[i].FitFine(ppm) : alone[i];
        }

        return new NeighbourhoodAnswer(
            [.. logLeak.Select(l => Math.Exp(l - logTotal))], [.. logAbove.Select(l => Math.Exp(l - logTotal))], leaks, [.. bestLeak.Select(b => b?.Outside)],
            Math.Exp(logElsewhere - logTotal), shares, candidates);
    }

    // weights are log weights of the outside samples, normalised; log is the explanation's log weight so far.
    private void Explain(int index, IReadOnlyList<Outside> outside, double[] weights, double log, OwnLeak[] own, bool elsewhere)
    {
        if (index == studies.Count)
        {
            Close(outside, weights, log, own, elsewhere);
            return;
        }

        var nulls = new double[outside.Count];
        for (var s = 0; s < nulls.Length; s++) nulls[s] = weights[s] + studies[index].LogNull(outside[s].Matters(index) ? outside[s].Ppm[index] : null);
        var (logNull, nullWeights) = Normalise(nulls);
        Explain(index + 1, outside, nullWeights, log + logNull, own, elsewhere);

        var ones = Ones(index, outside, weights, out var fit);
        var (logOne, oneWeights) = Normalise(ones);
        var (with, withWeights) = spilled.Add(index, outside, oneWeights);
        Explain(index + 1, with, withWeights, log + logOne, [.. own, fit], elsewhere);
    }

    // Log weights of the outside samples beside a leak or a source above a line-up. That is worked out for few amounts of gas from outside,
    // each time for the sample that weighs most among those of about that amount, and holds for them all.
    private double[] Ones(int index, IReadOnlyList<Outside> outside, double[] weights, out OwnLeak fit)
    {
        var ones = new double[outside.Count];
        var order = Enumerable.Range(0, ones.Length).OrderBy(s => outside[s].Matters(index) ? outside[s].At(index) : 0).ThenBy(s => s).ToArray();
        var idle = order.TakeWhile(s => !outside[s].Matters(index)).Count();
        (fit, var best) = (null!, double.NegativeInfinity);
        var amounts = Math.Min(Amounts, order.Length - idle);
        for (var a = idle > 0 ? -1 : 0; a < amounts; a++)
        {
            var (from, to) = a < 0 ? (0, idle) : (idle + (a * (order.Length - idle) / amounts), idle + ((a + 1) * (order.Length - idle) / amounts));
            var like = order[from..to];
            var heaviest = like.MaxBy(s => weights[s] + outside[s].LogOf(witnesses));
            var log = Own(index, a < 0 ? null : outside[heaviest].Ppm[index], out var here);
            foreach (var s in like) ones[s] = weights[s] + log;
            var heard = ones[heaviest] + outside[heaviest].LogOf(witnesses);
            if (heard <= best && fit is not null) continue;
            (fit, best) = (here, heard);
        }

        if (fit.Outside is not null) fit = fit with { Outside = Mean(index, outside, [.. ones.Select((log, s) => log + outside[s].LogOf(witnesses))]) };
        return ones;
    }

    // Mean of the gas from outside at a line-up's readings over weighted samples: beside the likeliest amount alone a leak that this amount could explain as
    // well would seem to lie anywhere.
    private static double[][] Mean(int index, IReadOnlyList<Outside> outside, double[] logs)
    {
        var total = NormalLaw.LogSum(logs);
        var mean = outside[0].Ppm[index].Select(b => new double[b.Length]).ToArray();
        for (var s = 0; s < logs.Length; s++)
        {
            var weight = Math.Exp(logs[s] - total);
            if (weight < 1e-6) continue;
            for (var b = 0; b < mean.Length; b++)
            {
                for (var i = 0; i < mean[b].Length; i++) mean[b][i] += weight * outside[s].Ppm[index][b][i];
            }
        }

        return mean;
    }

    // Log evidence of a leak in a line-up or a source above it beside known gas from outside. What that gas changes is taken from rough fits.
    private double Own(int index, double[][]? ppm, out OwnLeak own)
    {
        var (logLeak, logAbove, place) = (alone[index].LogTotal + logFurther[index], alone[index].LogAbove, alone[index].AbovePlace);
        if (ppm is not null)
        {
            var without = roughAlone[index] ??= studies[index].FitRough(null);
            var with = studies[index].FitRough(ppm);
            (logLeak, logAbove, place) = (logLeak + with.LogTotal - without.LogTotal, logAbove + with.LogAbove - without.LogAbove, with.AbovePlace);
        }

        own = new OwnLeak(index, ppm, AboveCase.ShareOf(studies[index], logAbove - logLeak), place);
        return NormalLaw.LogAdd(logLeak, logAbove);
    }

    // The factor by which sources above two line-ups at once raise an explanation, and the part of it with a source above each line-up.
    private (double All, double[] Above) Together(OwnLeak[] own)
    {
        var (all, pairs) = (1.0, 0.0);
        var above = new double[own.Length];
        for (var i = 0; i < own.Length; i++)
        {
            for (var j = i + 1; j < own.Length; j++)
            {
                var key = (own[i].AbovePlace, own[j].AbovePlace);
                if (!shared.TryGetValue(key, out var odds))
                {
                    odds = shared[key] = SharedAbove.Odds(studies[own[i].Study], own[i].AbovePlace, studies[own[j].Study], own[j].AbovePlace);
                }

                var both = own[i].AboveShare * own[j].AboveShare * odds;
                pairs += both;
                above[i] += both;
                above[j] += both;
            }
        }

        all += pairs;
        for (var i = 0; i < own.Length; i++) above[i] += own[i].AboveShare * (1 + pairs - above[i]);
        return (all, above);
    }

    private void Close(IReadOnlyList<Outside> outside, double[] weights, double log, OwnLeak[] own, bool elsewhere)
    {
        var logs = new double[outside.Count];
        for (var s = 0; s < outside.Count; s++) logs[s] = weights[s] + outside[s].LogOf(witnesses);
        var (factor, above) = Together(own);
        log += Normalise(logs).Log + Math.Log(factor);
        logTotal = NormalLaw.LogAdd(logTotal, log);
        if (elsewhere) logElsewhere = NormalLaw.LogAdd(logElsewhere, log);
        for (var i = 0; i < own.Length; i++)
        {
            var leak = own[i];
            logLeak[leak.Study] = NormalLaw.LogAdd(logLeak[leak.Study], log + Math.Log(Math.Max(0, 1 - (above[i] / factor))));
            logAbove[leak.Study] = NormalLaw.LogAdd(logAbove[leak.Study], log + Math.Log(above[i] / factor));
            if (log <= bestLog[leak.Study]) continue;
            bestLog[leak.Study] = log;
            bestLeak[leak.Study] = leak;
        }
    }

    private static (double Log, double[] Weights) Normalise(double[] logs)
    {
        var total = NormalLaw.LogSum(logs);
        return (total, [.. logs.Select(l => l - total)]);
    }
}
