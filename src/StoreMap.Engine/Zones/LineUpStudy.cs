using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>One leak as the neighbours see it.</summary>
/// <param name="At">Plan metres.</param>
/// <param name="PeakPpm">Strength with fans on.</param>
/// <param name="Reach">Reach, metres.</param>
/// <param name="Along">Direction of its front, a unit vector.</param>
/// <param name="Trace">Places on the front from which sixths of what it spills come.</param>
internal readonly record struct LeakSample(PlanPoint At, double PeakPpm, double Reach, PlanPoint Along, PlanPoint[] Trace);

/// <summary>One line-up: its readings in both air states against no leak and one leak.</summary>
internal sealed class LineUpStudy
{
    /// <summary>Kinds of leak in a case: at the coil, in the base. After them comes the source above the case.</summary>
    public const int CaseKinds = 2;

    private const double BaseShare = 0.25;
    private const int Samples = 6;

    public LineUpStudy(LineUpAxis axis, IReadOnlyList<ReadingBlock> blocks, double[] expected, double[] expectedAbove, Plan plan, string? room)
    {
        Axis = axis;
        Blocks = blocks;
        Expected = expected;
        ExpectedAbove = expectedAbove;
        Room = room;
        var views = blocks.SelectMany(b => b.Readings).Select(r => r.View.IsCase).ToArray();
        TellsBase = views.Contains(true) && views.Contains(false);
        Links = blocks is [{ FansOn: true }, { FansOn: false }] ? [.. Enum.GetValues<SourceKind>().Select(kind => StillStrength.Of(kind, plan, axis.Fixtures[0]))] : null;
        Fits = [.. Enum.GetValues<SourceKind>().Select(kind => blocks.Select(b => FitOf(b, kind, plan)).ToArray())];
    }

    /// <summary>The line-up.</summary>
    public LineUpAxis Axis { get; }

    /// <summary>Its readings, one block per air state probed.</summary>
    public IReadOnlyList<ReadingBlock> Blocks { get; }

    /// <summary>Expected leaks per cell.</summary>
    public double[] Expected { get; }

    /// <summary>Per cell the panel behind which a leak was confirmed; null elsewhere. Empty where nobody asked.</summary>
    public string?[] Found { get; init; } = [];

    /// <summary>By how much such a panel raises <see cref="Expected"/>.</summary>
    public double FoundOdds { get; init; } = 1;

    /// <summary>Expected sources above the case, per cell.</summary>
    public double[] ExpectedAbove { get; }

    /// <summary>The room its front gives on; null for the sales floor.</summary>
    public string? Room { get; }

    /// <summary>True when both the case air and the base were probed.</summary>
    public bool TellsBase { get; }

    /// <summary>Fits per kind of source (coil, base, above the case) and block.</summary>
    public StateFit[][] Fits { get; }

    /// <summary>Per kind of source, how its strengths in both states hang together; null unless both were read.</summary>
    public StrengthLink[]? Links { get; }

    /// <summary>Highest net reading of any block.</summary>
    public double HighestNet => Blocks.Max(b => b.HighestNet);

    /// <summary>True when a reading shows gas.</summary>
    public bool Seen => Blocks.Any(b => b.Readings.Any(r => r.ShowsGas));

    /// <summary>Log likelihood without a leak here; with gas from outside, summed over how much of it the line-up takes in.</summary>
    public double LogNull(double[][]? outside) => outside is null ? Blocks.Sum(b => b.NullLog) : Blocks.Select((b, i) => b.LogOfAisle(outside[i])).Sum();

    /// <summary>One leak here by itself: log of expected leaks times likelihood, summed over cells, kinds, air and strengths.</summary>
    public OneLeak Fit()
    {
        var tables = Blocks.Select(b => b.Quiet).ToArray();
        if (!Seen) return new OneLeak(this, Sum(tables, 0, Axis.Count - 1, 8, FitEffort.Rough, null), []);
        return FitFine(tables);
    }

    /// <summary>One leak here with known gas from outside, more roughly: only how much the outside changes is taken from it.</summary>
    public OneLeak FitRough(double[][]? outside)
    {
        var tables = Blocks.Select((b, i) => outside is null ? b.Quiet : b.TablesFor(outside[i])).ToArray();
        return new OneLeak(this, Sum(tables, 0, Axis.Count - 1, 8, FitEffort.Rough, null), []);
    }

    /// <summary>One leak here with known gas from outside, finely.</summary>
    public OneLeak FitFine(double[][] outside) => FitFine([.. Blocks.Select((b, i) => b.TablesFor(outside[i]))]);

    private OneLeak FitFine(BlockTables[] tables)
    {
        const int stride = 4;
        var rough = Sum(tables, 0, Axis.Count - 1, stride, FitEffort.Middle, null);
        foreach (var fit in Fits.SelectMany(f => f)) fit.Prune();
        var best = rough.Log.Max();
        var kept = Fits.Select(_ => Blocks.Select(_ => new List<FitPoint>()).ToArray()).ToArray();
        var (from, to) = (0, Axis.Count - 1);
        while (from < to && rough.Log[from] < best - 9) from++;
        while (to > from && rough.Log[to] < best - 9) to--;
        from = Math.Max(0, from - stride);
        to = Math.Min(Axis.Count - 1, to + stride);
        var fine = Sum(tables, from, to, to - from > 60 ? 2 : 1, FitEffort.Fine, kept);
        for (var c = 0; c < Axis.Count; c++)
        {
            if (c >= from && c <= to) continue;
            fine.Log[c] = rough.Log[c];
            fine.LogAbove[c] = rough.LogAbove[c];
        }

        return new OneLeak(this, fine, kept);
    }

    private KindSums Sum(BlockTables[] tables, int from, int to, int stride, FitEffort effort, List<FitPoint>[][]? kept)
    {
        var log = new double[Axis.Count];
        var (share, above) = (new double[Axis.Count], new double[Axis.Count]);
        Array.Fill(log, double.NegativeInfinity);
        Array.Fill(above, double.NegativeInfinity);
        for (var kind = 0; kind < (Seen ? Fits.Length : CaseKinds); kind++)
        {
            var inCase = kind < CaseKinds;
            var prior = inCase ? Math.Log(kind == 0 ? 1 - BaseShare : BaseShare) : 0;
            var expected = inCase ? Expected : ExpectedAbove;
            var sum = inCase ? new double[Axis.Count] : above;
            for (var c = 0; c < sum.Length; c++) sum[c] = prior + Math.Log(expected[c]);
            var strengths = Links is not null ? tables.Select(_ => new StrengthProfile?[Axis.Count]).ToArray() : null;
            for (var b = 0; b < tables.Length; b++)
            {
                var one = Fits[kind][b].OneLeak(tables[b], from, to, stride, effort, kept?[kind][b], strengths?[b]);
                for (var c = 0; c < sum.Length; c++) sum[c] += one[c];
            }

            if (strengths is not null) StillStrength.Join(sum, Links![kind], strengths[0], strengths[1]);

            for (var c = 0; inCase && c < sum.Length; c++)
            {
                log[c] = NormalLaw.LogAdd(log[c], sum[c]);
                share[c] = kind == 0 || double.IsNegativeInfinity(log[c]) ? 0 : Math.Exp(sum[c] - log[c]);
            }
        }

        return new KindSums(log, share, above);
    }

    private StateFit FitOf(ReadingBlock block, SourceKind kind, Plan plan)
    {
        var settings = AirRegime.Of(kind, block.FansOn);
        if (TellsBase) settings = AirSetting.WithCross(settings);
        var inBase = kind == SourceKind.Base;
        return inBase || block.FansOn
            ? new StateFit(
                block, settings, kind, reach => RoughStrength.PriorLogMean - Math.Log(RoughStrength.PerPeakPpm(plan, Axis.Fixtures[0], 0, reach, inBase)),
                inBase ? RoughStrength.BaseLogDeviation : RoughStrength.CaseLogDeviation)
            : new StateFit(block, settings, kind, _ => StillStrength.LogMean, StillStrength.LogDeviation);
    }

    /// <summary>Draws a few leaks that stand for the posterior, evenly through its weight.</summary>
    public IReadOnlyList<LeakSample> Draw(OneLeak one)
    {
        var block = Blocks.ToList().FindIndex(b => b.FansOn);
        if (block < 0) block = 0;
        return [.. one.Points(0, block, Samples).Select(p =>
        {
            var (f, at) = (Axis.Owner[p.Cell], Axis.Centres[p.Cell]);
            var along = Axis.Fixtures[f].Front!.DirectionAt(Axis.ToFront(f, at));
            var reach = Fits[0][block].Settings[p.Setting].Reach;

            // What would lie beyond a closed end lies before it.
            PlanPoint[] trace = [.. Spread.TraceParts.Select(part => Axis.PointAt(Math.Clamp(Folded(at + (part * reach)), 0, Axis.Length)))];
            return new LeakSample(Axis.PointAt(at), Math.Exp(p.LogStrength), reach, along, trace);
        })];
    }

    private double Folded(double s) => s < 0 ? -s : s > Axis.Length ? (2 * Axis.Length) - s : s;
}
