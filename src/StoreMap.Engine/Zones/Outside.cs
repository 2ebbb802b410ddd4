using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Known gas from outside at every reading of a neighbourhood, ppm: one possibility among weighted ones.</summary>
internal sealed class Outside
{
    /// <summary>Gas under a fifth of a reading's deviation does not change an answer.</summary>
    private const double LeastShare = 0.2;

    private readonly bool[] matters;
    private readonly bool[] mattersToWitness;
    private double? witnessLog;

    private Outside(double[][][] ppm, double[][] witnessPpm, bool[] matters, bool[] mattersToWitness)
    {
        Ppm = ppm;
        WitnessPpm = witnessPpm;
        this.matters = matters;
        this.mattersToWitness = mattersToWitness;
    }

    /// <summary>Per line-up, block and reading.</summary>
    public double[][][] Ppm { get; }

    /// <summary>Per witness block and reading.</summary>
    public double[][] WitnessPpm { get; }

    /// <summary>True when a line-up's readings feel it.</summary>
    public bool Matters(int study) => matters[study];

    /// <summary>Log likelihood of the witness blocks.</summary>
    public double LogOf(IReadOnlyList<ReadingBlock> witnesses)
    {
        if (witnessLog is { } known) return known;
        var log = 0.0;
        for (var w = 0; w < witnesses.Count; w++) log += mattersToWitness[w] ? witnesses[w].LogOfOutside(WitnessPpm[w]) : witnesses[w].NullLog;
        witnessLog = log;
        return log;
    }

    /// <summary>Gas at a line-up's readings, ppm summed.</summary>
    public double At(int study) => Ppm[study].Sum(b => b.Sum());

    /// <summary>No gas from outside.</summary>
    public static Outside None(IReadOnlyList<LineUpStudy> studies, IReadOnlyList<ReadingBlock> witnesses) => new(
        [.. studies.Select(s => s.Blocks.Select(b => new double[b.Readings.Length]).ToArray())],
        [.. witnesses.Select(w => new double[w.Readings.Length])], new bool[studies.Count], new bool[witnesses.Count]);

    /// <summary>This and one more source.</summary>
    /// <param name="studies">The line-ups.</param>
    /// <param name="witnesses">The witness blocks.</param>
    /// <param name="except">Index of the line-up the source is in; -1 when it is in none.</param>
    /// <param name="ppmAt">ppm at a reading.</param>
    public Outside Plus(
        IReadOnlyList<LineUpStudy> studies, IReadOnlyList<ReadingBlock> witnesses, int except, Func<BlockReading, double> ppmAt)
    {
        var ppm = new double[studies.Count][][];
        var felt = (bool[])matters.Clone();
        for (var s = 0; s < studies.Count; s++)
        {
            ppm[s] = s == except ? Ppm[s] : [.. studies[s].Blocks.Select((b, i) => Add(b, Ppm[s][i], ppmAt, ref felt[s]))];
        }

        var witness = new double[witnesses.Count][];
        var feltByWitness = (bool[])mattersToWitness.Clone();
        for (var w = 0; w < witnesses.Count; w++) witness[w] = Add(witnesses[w], WitnessPpm[w], ppmAt, ref feltByWitness[w]);
        return new Outside(ppm, witness, felt, feltByWitness);
    }

    private static double[] Add(ReadingBlock block, double[] before, Func<BlockReading, double> ppmAt, ref bool felt)
    {
        var sum = new double[before.Length];
        for (var i = 0; i < sum.Length; i++)
        {
            var reading = block.Readings[i];
            sum[i] = before[i] + ppmAt(reading);
            felt |= sum[i] > LeastShare * reading.Deviation;
        }

        return sum;
    }
}
