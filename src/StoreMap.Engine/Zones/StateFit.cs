using System.Runtime.CompilerServices;

namespace StoreMap.Zones;

/// <summary>A leak at one cell with one air setting and strength, and its weight.</summary>
/// <param name="Cell">Cell of the axis.</param>
/// <param name="Setting">Index of the air setting.</param>
/// <param name="LogStrength">ln of the strength, ppm.</param>
/// <param name="LogWeight">Log of prior times likelihood, place's prior not included.</param>
internal readonly record struct FitPoint(int Cell, int Setting, double LogStrength, double LogWeight);

/// <summary>How finely a likelihood is summed over air and strengths.</summary>
internal enum FitEffort
{
    /// <summary>Calm air only, every second strength: for comparing explanations.</summary>
    Rough,

    /// <summary>All air settings, every second strength: for finding where to look.</summary>
    Middle,

    /// <summary>Everything.</summary>
    Fine,
}

/// <summary>One block of a line-up against every place, air setting and strength of a leak.</summary>
internal sealed class StateFit
{
    private const int FineStep = 5;
    private const int CoarseStep = 10;
    private readonly float[]?[] logResponse;
    private readonly SourceKind kind;
    private readonly int crosses;
    private readonly double[][] logStrengthPrior;
    private readonly double[] logStrengthMean;
    private readonly double[] roughLogWeight;
    private readonly double[] settingBest;
    private readonly bool[] negligible;
    private readonly double lowest;
    private readonly int strengths;
    private readonly int step;

    /// <summary>Prepares the responses.</summary>
    /// <param name="block">Readings on a line-up in one air state.</param>
    /// <param name="settings">Prior over the air.</param>
    /// <param name="kind">Where the source is.</param>
    /// <param name="logMeanAtReach">Prior mean of ln strength for a reach.</param>
    /// <param name="logDeviation">Prior deviation of ln strength.</param>
    public StateFit(ReadingBlock block, AirSetting[] settings, SourceKind kind, Func<double, double> logMeanAtReach, double logDeviation)
    {
        Block = block;
        Settings = settings;
        Axis = block.Axis!;
        this.kind = kind;
        logResponse = new float[settings.Length][];
        crosses = settings.TakeWhile(s => s with { Cross = 0, Weight = 0 } == settings[0] with { Cross = 0, Weight = 0 }).Count();
        LogStrengthDeviation = logDeviation;
        logStrengthMean = [.. settings.Select(s => logMeanAtReach(s.Reach))];
        var highest = block.HighestNet;
        var detection = block.Readings.Max(r => r.Source.DetectionPpm);
        var seen = highest >= detection;
        step = seen ? FineStep : CoarseStep;
        var overRange = block.Readings.Any(r => r.Bound == StoreMap.Surveys.ReadingBound.AtLeast && !r.HitOnly);
        (lowest, var top) = seen
            ? (Math.Log(highest) - 1.5, Math.Log(highest) + (overRange ? 5 : 3))
            : (Math.Log(0.1), Math.Log(detection) + 5);

        // A leak in the base may be known only by what crosses into the case air.
        if (kind == SourceKind.Base) top += 1.5;
        strengths = 1 + (int)Math.Ceiling((top - lowest) / (step * ReadingBlock.StepLog));
        settingBest = new double[settings.Length];
        negligible = new bool[settings.Length];
        Array.Fill(settingBest, double.NegativeInfinity);

        // Rough sums take calm air only, in place of every drift, and every second strength.
        var calm = settings.Where(s => s.Calm).Sum(s => s.Weight);
        roughLogWeight = [.. settings.Select(s => s.Calm ? Math.Log(2 / calm) : double.NegativeInfinity)];
        logStrengthPrior = new double[settings.Length][];
        for (var t = 0; t < settings.Length; t++)
        {
            var mean = logMeanAtReach(settings[t].Reach);
            var measure = Math.Log(step * ReadingBlock.StepLog / (logDeviation * Math.Sqrt(2 * Math.PI))) + Math.Log(settings[t].Weight);
            logStrengthPrior[t] = [.. Enumerable.Range(0, strengths).Select(g => measure - (0.5 * Square((LogStrength(g) - mean) / logDeviation)))];
        }
    }

    /// <summary>Terms this far under the largest end the walk over strengths; natural logarithm, infinite to sum all.</summary>
    internal double Unseen { get; init; } = 14;

    /// <summary>The readings.</summary>
    public ReadingBlock Block { get; }

    /// <summary>The line-up.</summary>
    public LineUpAxis Axis { get; }

    /// <summary>The air settings.</summary>
    public AirSetting[] Settings { get; }

    /// <summary>Prior deviation of ln strength.</summary>
    public double LogStrengthDeviation { get; }

    /// <summary>Prior mean of ln strength in an air setting.</summary>
    public double LogStrengthMean(int setting) => logStrengthMean[setting];

    /// <summary>Log marginal likelihood of one leak in each cell, summed over air, strength and noise.</summary>
    /// <param name="tables">Tables of the block, with gas from outside if any.</param>
    /// <param name="from">First cell.</param>
    /// <param name="to">Last cell, included.</param>
    /// <param name="stride">Cells between evaluated ones; those between are interpolated.</param>
    /// <param name="effort">How fine the sums are.</param>
    /// <param name="kept">Receives the terms of the sums within 1e-6 of the largest of their cell; may be null.</param>
    /// <param name="profiles">Receives what is said of the strength in each evaluated cell; may be null.</param>
    public double[] OneLeak(BlockTables tables, int from, int to, int stride, FitEffort effort, List<FitPoint>? kept, StrengthProfile?[]? profiles = null)
    {
        var log = new double[Axis.Count];
        Array.Fill(log, double.NegativeInfinity);
        var last = -1;
        for (var c = from; c <= to; c = c == to ? to + 1 : Math.Min(c + stride, to))
        {
            var mass = profiles is null ? null : new double[strengths];
            log[c] = AtCell(tables, c, effort, kept, mass);
            if (mass is not null) profiles![c] = new StrengthProfile(lowest, step * ReadingBlock.StepLog, mass);
            for (var between = last + 1; last >= from && between < c; between++)
            {
                log[between] = log[last] + ((log[c] - log[last]) * (between - last) / (c - last));
            }

            last = c;
        }

        return log;
    }

    /// <summary>Log marginal likelihood of one leak in one cell.</summary>
    /// <param name="tables">Tables of the block, with gas from outside if any.</param>
    /// <param name="cell">The cell.</param>
    /// <param name="effort">How fine the sums are.</param>
    /// <param name="kept">Receives the terms that count; may be null.</param>
    /// <param name="mass">Filled with the share of each strength; may be null.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public double AtCell(BlockTables tables, int cell, FitEffort effort, List<FitPoint>? kept, double[]? mass = null)
    {
        var n = Block.Readings.Length;
        Span<double> shape = n <= 256 ? stackalloc double[n] : new double[n];
        Span<double> terms = stackalloc double[strengths];
        var top = -1;
        var first = kept?.Count ?? 0;
        var best = double.NegativeInfinity;
        var sum = 0.0;
        var every = effort == FitEffort.Fine ? 1 : 2;
        var doubled = effort == FitEffort.Fine ? 0 : Math.Log(2);
        for (var t = 0; t < Settings.Length; t++)
        {
            var weight = effort == FitEffort.Rough ? roughLogWeight[t] : doubled;
            if (double.IsNegativeInfinity(weight) || (effort == FitEffort.Fine && negligible[t])) continue;
            var table = ResponseOf(t).AsSpan(cell * n, n);
            for (var i = 0; i < n; i++) shape[i] = table[i] + lowest;
            tables.SetShape(shape);
            var (low, high) = Terms(tables, t, weight, every, top, best, terms);
            var bestHere = double.NegativeInfinity;
            for (var g = low; g <= high; g += every)
            {
                var term = terms[g];
                if (term > bestHere) (bestHere, top) = (term, g);
                if (term > best)
                {
                    var less = Math.Exp(best - term);
                    sum = (sum * less) + 1;
                    best = term;
                    for (var k = 0; k < (mass?.Length ?? 0); k++) mass![k] *= less;
                    if (mass is not null) mass[g]++;
                }
                else if (term > best - 40)
                {
                    var share = Math.Exp(term - best);
                    sum += share;
                    if (mass is not null) mass[g] += share;
                }

                if (kept is not null && term > best - 12) kept.Add(new FitPoint(cell, t, LogStrength(g), term));
            }

            if (effort == FitEffort.Middle) settingBest[t] = Math.Max(settingBest[t], bestHere);
        }

        if (kept is not null)
        {
            var write = first;
            for (var i = first; i < kept.Count; i++)
            {
                if (kept[i].LogWeight > best - 12) kept[write++] = kept[i];
            }

            kept.RemoveRange(write, kept.Count - write);
        }

        for (var g = 0; g < (mass?.Length ?? 0); g++) mass![g] /= sum;
        return best + Math.Log(sum);
    }

    // Terms of one air setting from the strength that the setting before had likeliest, to either side until they fall out of sight. A second peak
    // beyond so deep a valley would be missed; tests hold this against the whole sum. Without such a strength, all.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (int Low, int High) Terms(BlockTables tables, int setting, double weight, int every, int start, double best, Span<double> terms)
    {
        var prior = logStrengthPrior[setting];
        var last = (strengths - 1) / every * every;
        if (start < 0)
        {
            for (var g = 0; g <= last; g += every) terms[g] = tables.LogAt(g * step) + prior[g] + weight;
            return (0, last);
        }

        terms[start] = tables.LogAt(start * step) + prior[start] + weight;
        best = Math.Max(best, terms[start]);
        var (low, high) = (start, start);
        while (high < last && (high == start || terms[high] > best - Unseen || terms[high] > terms[high - every]))
        {
            high += every;
            terms[high] = tables.LogAt(high * step) + prior[high] + weight;
            best = Math.Max(best, terms[high]);
        }

        while (low > 0 && (low == start || terms[low] > best - Unseen || terms[low] > terms[low + every]))
        {
            low -= every;
            terms[low] = tables.LogAt(low * step) + prior[low] + weight;
            best = Math.Max(best, terms[low]);
        }

        return (low, high);
    }

    /// <summary>Leaves air settings that the middle sums found hopeless out of the fine ones.</summary>
    public void Prune()
    {
        var best = settingBest.Max();
        for (var t = 0; t < negligible.Length; t++) negligible[t] = settingBest[t] < best - 7;
        Array.Fill(settingBest, double.NegativeInfinity);
    }

    /// <summary>Modelled ppm at each reading.</summary>
    public void AddModel(int cell, int setting, double logStrength, double[] ppm)
    {
        var n = Block.Readings.Length;
        for (var i = 0; i < n; i++) ppm[i] += Math.Exp(ResponseOf(setting)[(cell * n) + i] + logStrength);
    }

    /// <summary>ln of what a reading shows of a source of strength 1.</summary>
    public double LogResponse(int cell, int setting, int reading) => ResponseOf(setting)[(cell * Block.Readings.Length) + reading];

    // ln of what each reading shows of a source of strength 1 in each cell, worked out when first asked for: quiet line-ups need few.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private float[] ResponseOf(int setting)
    {
        if (logResponse[setting] is { } known) return known;
        var n = Block.Readings.Length;
        var response = new double[Axis.Count];
        var first = setting - (setting % crosses);
        for (var k = first; k < first + crosses; k++) logResponse[k] = new float[Axis.Count * n];
        for (var i = 0; i < n; i++)
        {
            Block.Air!.Response(Settings[setting], i, response);
            for (var c = 0; c < response.Length; c++) response[c] = Math.Log(Math.Max(response[c], 1e-30));
            for (var k = first; k < first + crosses; k++)
            {
                var view = Math.Log(Math.Max(Block.Readings[i].View.Of(kind, Settings[k].Cross), 1e-30));
                for (var c = 0; c < response.Length; c++) logResponse[k]![(c * n) + i] = (float)(response[c] + view);
            }
        }

        return logResponse[setting]!;
    }

    private double LogStrength(int g) => lowest + (g * step * ReadingBlock.StepLog);

    private static double Square(double x) => x * x;
}
