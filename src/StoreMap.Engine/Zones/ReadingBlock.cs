using StoreMap.Surveys;

namespace StoreMap.Zones;

/// <summary>The readings of one line-up, walk-in or room in one air state, in order along the axis, with tables of how each
/// compares with a modelled ppm.</summary>
/// <remarks>Readings are compared on the scale h(y) = asinh(c y / s) / c, s the additive deviation: near zero it is linear and
/// the noise additive, far above it is logarithmic and the noise multiplicative. Modelled values are looked up by ln f on a grid of
/// <see cref="StepLog"/> with linear interpolation.</remarks>
internal sealed class ReadingBlock
{
    /// <summary>Step of the tables in ln f.</summary>
    public const double StepLog = 0.05;

    /// <summary>First entry of the tables: ln f of air that shows nothing.</summary>
    public const double FirstLog = -9;

    /// <summary>Entries per table.</summary>
    public const int Entries = 420;

    /// <summary>Chance that a reading below the limit says nothing of what is there: a gust, a blocked tip.</summary>
    private const double Stray = 0.004;

    /// <summary>Chance that a reading over range says nothing: hundreds of ppm do not come from nowhere, so no coincidence of gusts
    /// may outweigh every place the gas can come from.</summary>
    private const double OverRangeStray = 1e-12;

    /// <summary>The same for a monitor that only tells hit from no hit: it answers to other gases too.</summary>
    private const double HitStray = 0.03;

    /// <summary>Density, on the comparison scale, of what a monitor shows while its hose still holds an over-range reading: spread evenly from the
    /// place's own gas to the end of the range, some four powers of ten (asinh(0.35 · 3000) / 0.35 = 22).</summary>
    private const double HoseDensity = 0.05;

    /// <summary>Seconds over which gusts in a case last (1/e): eddies of a foot in air of 0.1 m/s.</summary>
    public const double GustSeconds = 3;

    /// <summary>Deviations above what is modelled from which a reading is taken for gas that is not.</summary>
    private const double FarDeviations = 6;

    private const double C = NoiseLevels.ScaleDeviation;

    // The first entry stands for no gas from a source in the block.
    private static readonly double[] Modelled = [.. Enumerable.Range(0, Entries).Select(k => k == 0 ? 0 : Math.Exp(FirstLog + (k * StepLog)))];

    private static readonly double[] LevelVariance = [.. NoiseLevels.Turbulence.Select((t, i) => (t * t) + (NoiseLevels.Patch[i] * NoiseLevels.Patch[i]))];

    public ReadingBlock(string key, bool fansOn, IEnumerable<BlockReading> readings, LineUpAxis? axis)
    {
        Key = key;
        FansOn = fansOn;
        Axis = axis;
        Readings = [.. readings.OrderBy(r => r.S).ThenBy(r => r.Source.Reading.Time)];
        Keep = new double[Readings.Length];
        for (var i = 1; i < Readings.Length; i++) Keep[i] = axis is null ? 0 : Math.Exp((Readings[i - 1].S - Readings[i].S) / NoiseLevels.PatchMetres);
        StrayKeep = [.. Readings.Select((r, i) => i == 0 || axis is null ? 0 : Math.Exp((Readings[i - 1].S - r.S) / Spread.StrayMetres))];
        Weight = WeightOf(Readings);
        Air = axis is null ? null : new BlockAir(axis, [.. Readings.Select(r => (r.S, r.StillSeconds))]);
        LogVariance = [.. Readings.Select(r => r.View.LogVariance)];
        Quiet = TablesFor(new double[Readings.Length]);
        NullLog = Quiet.LogLikelihood(null);
    }

    /// <summary>What the block is of: first fixture's id of a line-up, a walk-in's id, a room's id, empty for the sales floor.</summary>
    public string Key { get; }

    /// <summary>What its readings show of a source in the line-up; null for walk-ins and open air.</summary>
    public BlockAir? Air { get; }

    /// <summary>True with the fans running.</summary>
    public bool FansOn { get; }

    /// <summary>The line-up; null for walk-ins and open air.</summary>
    public LineUpAxis? Axis { get; }

    /// <summary>Readings in order along the axis.</summary>
    public BlockReading[] Readings { get; }

    /// <summary>Correlation of each reading's patch deviation with the one before.</summary>
    public double[] Keep { get; }

    /// <summary>Correlation of each reading's share of aisle gas with the one before.</summary>
    public double[] StrayKeep { get; }

    /// <summary>What the block's log likelihood counts, in (0, 1]: less than 1 for readings a few seconds apart, which share their gusts.</summary>
    public double Weight { get; }

    /// <summary>Variance of each reading's logarithm by its spot.</summary>
    public double[] LogVariance { get; }

    /// <summary>Tables without gas from outside.</summary>
    public BlockTables Quiet { get; }

    /// <summary>Log likelihood of the readings when no gas is here.</summary>
    public double NullLog { get; }

    /// <summary>Highest exact or at-least net reading; negative infinity without one. What only tells hit from no hit is no number.</summary>
    public double HighestNet => Readings.Where(r => r.Bound != ReadingBound.Below && !r.HitOnly).Select(r => r.Net).DefaultIfEmpty(double.NegativeInfinity).Max();

    /// <summary>Tables with a known ppm from outside at each reading added to what a source in the block brings.</summary>
    public BlockTables TablesFor(double[] outsidePpm)
    {
        var n = Readings.Length;
        var residual = new double[n * Entries];
        var additive = new double[n * Entries];
        var gain = new double[n * Entries];
        var censored = new double[]?[n];
        for (var i = 0; i < n; i++)
        {
            var r = Readings[i];
            var bounds = r.Bound == ReadingBound.Exact ? null : censored[i] = new double[Entries * NoiseLevels.Count];
            var observed = Scale(r.Net, r.Deviation);
            var blur = 1 + Square(Spread.OutsideLogDeviation * outsidePpm[i] / r.Deviation);
            var stray = r.HitOnly ? HitStray : r.Bound == ReadingBound.Below ? Stray : OverRangeStray;
            var (never, always) = (Math.Log(stray), Math.Log(1 - stray));
            for (var k = 0; k < Entries; k++)
            {
                var f = Modelled[k] + outsidePpm[i];
                var x = C * f / r.Deviation;
                var a = 1 / (1 + (x * x));
                var difference = FarAbove(observed - (Math.Log(x + Math.Sqrt((x * x) + 1)) / C), a);
                residual[(i * Entries) + k] = difference;
                additive[(i * Entries) + k] = a * blur;
                gain[(i * Entries) + k] = Math.Sqrt(1 - a) / C;
                if (bounds is null) continue;
                for (var level = 0; level < NoiseLevels.Count; level++)
                {
                    var variance = (a * blur) + ((1 - a) / (C * C) * (LevelVariance[level] + r.View.LogVariance));
                    var z = (r.Bound == ReadingBound.Below ? difference : -difference) / Math.Sqrt(variance);
                    if (r.Cleared > 0)
                    {
                        var own = NormalLaw.Density(z) / Math.Sqrt(variance);
                        bounds[(k * NoiseLevels.Count) + level] = Math.Log((r.Cleared * own) + (HoseDensity * (stray + ((1 - r.Cleared) * NormalLaw.Phi(z)))));
                        continue;
                    }

                    // Beyond seven deviations the chance is the stray's to the last digit that counts.
                    bounds[(k * NoiseLevels.Count) + level] = z < -7 ? never : z > 7 ? always : Math.Log(stray + ((1 - (2 * stray)) * NormalLaw.Phi(z)));
                }
            }
        }

        return new BlockTables(this, residual, additive, gain, censored);
    }

    // n values of a series correlated by r from one to the next tell as much of their mean as n (1 - r) / (1 + r) independent ones (Bayley
    // and Hammersley 1946, first-order series). A likelihood that takes them for independent is scaled by that share, as a composite
    // likelihood is (Pauli, Racugno and Ventura 2011).
    private static double WeightOf(BlockReading[] readings)
    {
        var effective = 0.0;
        DateTimeOffset? before = null;
        foreach (var reading in readings.Select(r => r.Source.Reading).OrderBy(r => r.Time))
        {
            // Only a walked log has readings that near, which belong to no probe point; stops wait for the monitor.
            var gap = reading.Shown is not null && reading.Place.Point is null && reading.Time > before ? (reading.Time - before.Value).TotalSeconds : double.PositiveInfinity;
            before = reading.Time;
            var keep = Math.Exp(-gap / GustSeconds);
            effective += (1 - keep) / (1 + keep);
        }

        return effective / readings.Length;
    }

    /// <summary>Log likelihood of the readings for gas from outside alone: in a case of what it takes in of the aisle's, elsewhere as it is.</summary>
    /// <param name="ppm">ppm outside at each reading.</param>
    public double LogOfOutside(double[] ppm) => Axis is not null
        ? LogOfAisle(ppm)
        : Quiet.LogLikelihood([.. ppm.Select(p => p <= 0 ? -1000 : Math.Log(p))], Square(Spread.OutsideLogDeviation));

    /// <summary>Log likelihood of the readings for gas from the aisle alone, whose share taken in strays along the front, summed over what the line-up
    /// takes in of it.</summary>
    /// <param name="ppm">ppm outside at each reading.</param>
    public double LogOfAisle(double[] ppm)
    {
        var intakes = FansOn ? Spread.Intakes : Spread.StillIntakes;
        return NormalLaw.LogSum([.. intakes.Select(t =>
            Math.Log(t.Weight) + Quiet.LogOfAisle([.. ppm.Select(p => p <= 0 ? -1000 : Math.Log(p) + t.LogFactor)], Square(Spread.AisleLogDeviation)))]);
    }

    // Gusts stretch what is there; they don't make much of nothing. So where little is modelled (additive share near 1) a reading far above it is rarer
    // than Student's tail has it: its density falls by a further e^-3 for each deviation beyond the sixth, which is a power of -8.6 of its ppm.
    private static double FarAbove(double difference, double additive) => difference < FarDeviations || additive < 0.01 ? difference
        : Math.Sqrt(BlockTables.Freedom * (((1 + (difference * difference / BlockTables.Freedom)) * Math.Exp(additive * (difference - FarDeviations))) - 1));

    private static double Scale(double ppm, double deviation) => Math.Asinh(C * ppm / deviation) / C;

    private static double Square(double x) => x * x;
}
