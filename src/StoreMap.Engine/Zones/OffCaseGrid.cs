namespace StoreMap.Zones;

/// <summary>Sources outside the cases without any leak in a case, on a grid over candidates, widths and strengths.</summary>
internal static class OffCaseGrid
{
    private const double LogStep = 0.3;

    /// <summary>Points that carry on, with their prior weights scaled so that together they stand for the whole grid.</summary>
    private const int Carried = 8;

    /// <summary>The heaviest points as samples of gas from outside.</summary>
    /// <param name="studies">The line-ups.</param>
    /// <param name="witnesses">Blocks nearby that show no gas, and open-air blocks.</param>
    /// <param name="candidates">Where the source may be.</param>
    /// <param name="expected">Expected sources outside the cases here.</param>
    /// <returns>Samples, their log weights before any reading, and the posterior share of each candidate.</returns>
    public static (IReadOnlyList<Outside> Samples, double[] LogWeights, double[] Shares) Samples(
        IReadOnlyList<LineUpStudy> studies, IReadOnlyList<ReadingBlock> witnesses, IReadOnlyList<OffCaseSource> candidates, double expected)
    {
        var points = new List<(int Candidate, double Width, double LogStrength, double Prior, double Log)>();
        var highest = studies.Select(s => s.HighestNet).Concat(witnesses.Select(w => w.HighestNet)).DefaultIfEmpty(double.NegativeInfinity).Max();
        if (candidates.Count == 0 || highest <= 0) return ([], [], new double[candidates.Count]);
        var blocks = studies.SelectMany(s => s.Blocks).Concat(witnesses).ToArray();
        var shapes = blocks.Select(b => new double[b.Readings.Length]).ToArray();
        var models = blocks.Select(b => new double[b.Readings.Length]).ToArray();
        for (var c = 0; c < candidates.Count; c++)
        {
            foreach (var (width, widthWeight) in Spread.OffCaseWidths)
            {
                for (var b = 0; b < blocks.Length; b++)
                {
                    for (var i = 0; i < shapes[b].Length; i++)
                    {
                        shapes[b][i] = Math.Log(Math.Max(1e-30, Spread.FromOffCase(candidates[c].At, width, blocks[b].Readings[i].At)));
                    }
                }

                for (var u = Math.Log(highest) - 0.9; u < Math.Log(highest) + 2.4; u += LogStep)
                {
                    var prior = Math.Log(expected * candidates[c].Share * widthWeight * LogStep / (Spread.OffCaseLogDeviation * Math.Sqrt(2 * Math.PI)))
                        - (0.5 * Math.Pow((u - Spread.OffCaseLogMean) / Spread.OffCaseLogDeviation, 2));
                    var log = prior;
                    for (var b = 0; b < blocks.Length; b++)
                    {
                        for (var i = 0; i < shapes[b].Length; i++) models[b][i] = shapes[b][i] + u;
                        log += blocks[b].Quiet.LogLikelihood(models[b], Spread.OffCaseVariance);
                    }

                    points.Add((c, width, u, prior, log));
                }
            }
        }

        var total = NormalLaw.LogSum([.. points.Select(p => p.Log)]);
        var shares = new double[candidates.Count];
        foreach (var p in points) shares[p.Candidate] += Math.Exp(p.Log - total);
        var firsts = points.OrderByDescending(p => p.Log).ThenBy(p => p.Candidate).Take(Carried).ToList();
        var scale = total - NormalLaw.LogSum([.. firsts.Select(p => p.Log)]);
        return ([.. firsts.Select(p => Of(candidates[p.Candidate], p.Width, p.LogStrength))], [.. firsts.Select(p => p.Prior + scale)], shares);

        Outside Of(OffCaseSource source, double width, double logStrength) => Outside.None(studies, witnesses).Plus(
            studies, witnesses, -1, r => Math.Exp(logStrength) * Spread.FromOffCase(source.At, width, r.At));
    }
}
