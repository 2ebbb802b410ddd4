using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>Makes samples of the gas that leaks in line-ups bring to the others through the aisles.</summary>
/// <param name="studies">The line-ups.</param>
/// <param name="alone">Their one-leak posteriors.</param>
/// <param name="witnesses">Blocks nearby that show no gas, and open-air blocks.</param>
/// <param name="ways">Ways through the aisles.</param>
internal sealed class SpilledGas(IReadOnlyList<LineUpStudy> studies, OneLeak[] alone, IReadOnlyList<ReadingBlock> witnesses, AisleWays ways)
{
    /// <summary>Samples of what is outside that carry on past a leak.</summary>
    private const int Carried = 2;

    /// <summary>Each sample of what is outside with what a leak spills: few samples of the leak, each with every aisle share.</summary>
    /// <param name="index">Index of the line-up.</param>
    /// <param name="outside">Samples so far.</param>
    /// <param name="weights">Their log weights beside the leak.</param>
    /// <returns>Samples and log weights.</returns>
    public (IReadOnlyList<Outside> Samples, double[] LogWeights) Add(int index, IReadOnlyList<Outside> outside, double[] weights)
    {
        var first = outside.Count > 1 ? 1 : 0;
        var draws = studies[index].Draw(alone[index]).Where((_, d) => d % 3 == first).ToArray();
        if (draws.Length == 0) return (outside, weights);
        var result = new List<Outside>();
        var logs = new List<double>();

        // What readings elsewhere say counts in the choice of the samples that carry on; together they stand for all.
        var heavy = outside.Select((o, i) => weights[i] + o.LogOf(witnesses)).ToArray();
        var firsts = Enumerable.Range(0, heavy.Length).OrderByDescending(i => heavy[i]).ThenBy(i => i).Take(Carried).ToArray();
        var scale = NormalLaw.LogSum(heavy) - NormalLaw.LogSum([.. firsts.Select(i => heavy[i])]);
        foreach (var i in firsts)
        {
            foreach (var draw in draws)
            {
                foreach (var (shift, shiftWeight) in Spread.AisleShifts)
                {
                    var at = draw.At + (draw.Along * shift);
                    PlanPoint[] trace = [.. draw.Trace.Select(t => t + (draw.Along * shift))];
                    foreach (var reach in Spread.AisleAir.GroupBy(a => a.Metres))
                    {
                        var relative = new Dictionary<BlockReading, double>(ReferenceEqualityComparer.Instance);
                        foreach (var (share, _, weight) in reach)
                        {
                            result.Add(outside[i].Plus(studies, witnesses, index, r => r.View.Aisle * Spread.FromCase(
                                Relative(relative, trace, r, draw.Reach, reach.Key), draw.PeakPpm, draw.Reach, share * ways.Narrowing(at, r.Source.Reading.Place.Fixture), r.InCase)));
                            logs.Add(weights[i] + scale + Math.Log(weight * shiftWeight / draws.Length));
                        }
                    }
                }
            }
        }

        return (result, [.. logs]);
    }

    private double Relative(Dictionary<BlockReading, double> known, PlanPoint[] trace, BlockReading reading, double reach, double metres)
    {
        if (known.TryGetValue(reading, out var relative)) return relative;
        Span<double> distances = stackalloc double[trace.Length];
        for (var t = 0; t < trace.Length; t++) distances[t] = ways.Between(trace[t], reading.At);
        return known[reading] = Spread.AlongTrace(distances, reach, metres);
    }
}
