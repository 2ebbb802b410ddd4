namespace StoreMap.Zones;

/// <summary>Log of expectation times likelihood per cell of a line-up.</summary>
/// <param name="Log">Of a leak in the case.</param>
/// <param name="BaseShare">Probability that such a leak is in the base piping.</param>
/// <param name="LogAbove">Of a source above the case.</param>
internal readonly record struct KindSums(double[] Log, double[] BaseShare, double[] LogAbove);

/// <summary>The posterior of one leak in a line-up.</summary>
internal sealed class OneLeak
{
    private readonly LineUpStudy study;
    private readonly List<FitPoint>[][] kept;

    public OneLeak(LineUpStudy study, KindSums sums, List<FitPoint>[][] kept)
    {
        this.study = study;
        this.kept = kept;
        Log = sums.Log;
        BaseShare = sums.BaseShare;
        var total = double.NegativeInfinity;
        foreach (var log in Log) total = NormalLaw.LogAdd(total, log);
        LogTotal = total;
        Place = [.. Log.Select(l => Math.Exp(l - total))];
        LogAbove = NormalLaw.LogSum(sums.LogAbove);
        AbovePlace = [.. sums.LogAbove.Select(l => double.IsNegativeInfinity(l) ? 0 : Math.Exp(l - LogAbove))];
    }

    /// <summary>Log of expected leaks times likelihood per cell.</summary>
    public double[] Log { get; }

    /// <summary>Probability per cell that the leak is in the base piping, given the cell.</summary>
    public double[] BaseShare { get; }

    /// <summary>Sum over the cells, as a logarithm.</summary>
    public double LogTotal { get; }

    /// <summary>The same for one source above the case in place of a leak in it, summed over the cells.</summary>
    public double LogAbove { get; }

    /// <summary>Probability per cell that such a source is above it; sums to 1.</summary>
    public double[] AbovePlace { get; }

    /// <summary>Probability per cell given one leak; sums to 1.</summary>
    public double[] Place { get; }

    /// <summary>Points of cell, air and strength evenly through the posterior of one block, deterministic.</summary>
    public IReadOnlyList<FitPoint> Points(int kind, int block, int count)
    {
        if (kept.Length == 0) return [];
        var points = kept[kind][block];
        var weights = new double[points.Count];
        var perCell = new double[study.Axis.Count];
        var best = points.Max(p => p.LogWeight);
        for (var i = 0; i < weights.Length; i++) perCell[points[i].Cell] += weights[i] = Math.Exp(points[i].LogWeight - best);

        // Within a cell the block's own weights; between cells the whole posterior's. Cells skipped by the stride lend theirs to the next.
        var carried = 0.0;
        var cellWeight = new double[perCell.Length];
        for (var c = 0; c < perCell.Length; c++)
        {
            carried += (SourceKind)kind switch
            {
                SourceKind.Coil => Place[c] * (1 - BaseShare[c]),
                SourceKind.Base => Place[c] * BaseShare[c],
                _ => AbovePlace[c],
            };
            if (perCell[c] <= 0) continue;
            cellWeight[c] = carried;
            carried = 0;
        }

        var total = cellWeight.Sum();
        var chosen = new List<FitPoint>();
        var passed = 0.0;
        for (var i = 0; i < weights.Length; i++)
        {
            passed += weights[i] / perCell[points[i].Cell] * cellWeight[points[i].Cell] / total;
            while (chosen.Count < count && passed > (chosen.Count + 0.5) / count) chosen.Add(points[i]);
        }

        return chosen;
    }
}
