using StoreMap.Plans;

namespace StoreMap.Zones;

/// <summary>A walk-in: a room with coils. A leak raises the mixed air and, more, the air near it.</summary>
internal sealed class WalkInStudy
{
    private const double StepMetres = 0.4;
    private const double StrengthStep = 0.3;
    // Mixed air against the excess beside the leak: G / Q of the door's exchange (some 0.02 m³/s) against G / Q of the fans' stirring (0.1 to 1 m³/s), so
    // with fans on the air is mostly even, and a bump in a few readings mostly noise; with fans off the excess gathers.
    private static readonly (double Mixed, double Reach, double Weight)[] FansOnAir =
        [(10, 1, 0.25), (3, 1, 0.2), (3, 2, 0.2), (1, 1.5, 0.2), (0.3, 1.5, 0.15)];

    private static readonly (double Mixed, double Reach, double Weight)[] StillAir = [(3, 0.8, 0.25), (1, 0.8, 0.25), (1, 1.5, 0.2), (0.3, 1.3, 0.2), (0.1, 2, 0.1)];

    public WalkInStudy(Plan plan, Fixture fixture, IReadOnlyList<ReadingBlock> blocks, double expected)
    {
        Fixture = fixture;
        Blocks = blocks;
        Places = [.. Grid(fixture)];
        var odds = Places.Select(p => 0.3 + (3 * fixture.Coils.Select(c => Math.Exp(-0.5 * Math.Pow(c.DistanceTo(p) / 0.8, 2))).DefaultIfEmpty(0.1).Max())
            + plan.Drops.Where(d => d.Fixtures.Contains(fixture.Id)).Select(d => Math.Exp(-0.5 * Math.Pow(d.At.DistanceTo(p) / 0.8, 2))).DefaultIfEmpty(0).Max()).ToArray();
        var sum = odds.Sum();
        Expected = [.. odds.Select(o => expected * o / sum)];
    }

    /// <summary>The walk-in.</summary>
    public Fixture Fixture { get; }

    /// <summary>Its readings, one block per air state.</summary>
    public IReadOnlyList<ReadingBlock> Blocks { get; }

    /// <summary>Candidate places, plan metres.</summary>
    public PlanPoint[] Places { get; }

    /// <summary>Expected leaks per place.</summary>
    public double[] Expected { get; }

    /// <summary>Posterior odds of a leak against none, as a logarithm, the place's probabilities given a leak, and the mean strength
    /// as ppm of the mixed air.</summary>
    public (double LogOdds, double[] Place, double MixedPpm) Fit()
    {
        var log = Expected.Select(e => Math.Log(e)).ToArray();
        var (mixedSum, weightSum) = (0.0, 0.0);
        foreach (var block in Blocks)
        {
            var air = block.FansOn ? FansOnAir : StillAir;
            var n = block.Readings.Length;
            var shape = new double[n];
            var highest = Math.Max(block.HighestNet, block.Readings.Max(r => r.Source.DetectionPpm));
            for (var p = 0; p < Places.Length; p++)
            {
                var terms = new List<double>();
                foreach (var (mixed, reach, weight) in air)
                {
                    for (var u = Math.Log(highest) - 4; u < Math.Log(highest) + 3; u += StrengthStep)
                    {
                        for (var i = 0; i < n; i++)
                        {
                            shape[i] = u + Math.Log(block.Readings[i].View.Case * (mixed + Math.Exp(-block.Readings[i].At.DistanceTo(Places[p]) / reach)));
                        }

                        var term = block.Quiet.LogLikelihood(shape) + Math.Log(weight * StrengthStep / (2 * Math.Sqrt(2 * Math.PI)))
                            - (0.5 * Math.Pow((u - Math.Log(15)) / 2, 2));
                        terms.Add(term);
                        var w = Expected[p] * Math.Exp(term - block.NullLog - 200);
                        if (!double.IsFinite(w)) continue;
                        mixedSum += w * mixed * Math.Exp(u);
                        weightSum += w;
                    }
                }

                log[p] += NormalLaw.LogSum(terms) - block.NullLog;
            }
        }

        var total = NormalLaw.LogSum(log);
        return (total, [.. log.Select(l => Math.Exp(l - total))], weightSum > 0 ? mixedSum / weightSum : 0);
    }

    private static IEnumerable<PlanPoint> Grid(Fixture fixture)
    {
        var ring = fixture.Outline;
        var (left, right) = (ring.Min(p => p.X), ring.Max(p => p.X));
        var (bottom, top) = (ring.Min(p => p.Y), ring.Max(p => p.Y));
        var columns = Math.Max(2, (int)Math.Ceiling((right - left) / StepMetres));
        var rows = Math.Max(2, (int)Math.Ceiling((top - bottom) / StepMetres));
        for (var r = 0; r < rows; r++)
        {
            for (var c = 0; c < columns; c++)
            {
                var p = new PlanPoint(left + ((c + 0.5) * (right - left) / columns), bottom + ((r + 0.5) * (top - bottom) / rows));
                if (RoomKeys.Holds(ring, p)) yield return p;
            }
        }
    }
}
