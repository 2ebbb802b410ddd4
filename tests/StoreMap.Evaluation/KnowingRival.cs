using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using StoreMap.Plans;
using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>How well the place of a single leak can be known by one who knows everything of a store but the leak's place and strength.</summary>
/// <param name="Stage">With what readings.</param>
/// <param name="ErrorFeet">Feet from its median place to the leak.</param>
/// <param name="Covered">Its 90 % interval holds the leak.</param>
/// <param name="WidthFeet">Width of that interval, ft.</param>
public sealed record KnowingAnswer(Stage Stage, double ErrorFeet, bool Covered, double WidthFeet);

/// <summary>An inference that knows every parameter, and more: the air of the very visit second by second, the kind of leak, the line-up, that
/// the leak is within 8 ft, the sizes of patch effects, flicker and sensor noise. What it does not know is where within the 16 ft, how
/// strong, and the noise itself. Held readings of the leak's line-up only.</summary>
internal static class KnowingRival
{
    private const double Ft = LengthUnits.MetresPerFoot;
    private const double Reach = 8 * Ft;
    private const double Step = 0.15;
    private const double PatchMetres = 0.762;

    /// <summary>Share of the flicker's deviation that the hold and the sensor's answer leave: an autoregression of 0.78 a second behind a
    /// first-order sensor of T90 5 s (time constant 2.2 s): √(4.1 / (4.1 + 2.2)) of it.</summary>
    private const double FlickerLeft = 0.8;

    /// <summary>ppm about which the logarithm of a reading bends over to its own.</summary>
    private const double Bend = 1;

    private const int Strengths = 41;
    private static readonly double LogReach = Math.Log(8);

    /// <summary>Answers for the stages that were gone through.</summary>
    /// <param name="store">A store with one leak in a case.</param>
    /// <param name="visit">The visit through all stages.</param>
    /// <param name="counts">Readings after each stage.</param>
    public static IReadOnlyList<KnowingAnswer> Answers(SimulatedStore store, Surveyor visit, IReadOnlyList<int> counts)
    {
        var leak = store.Leaks[0];
        var axis = CaseAxis.Of(store.Plan).First(a => a.Fixtures.Any(f => f.Id == leak.Fixture));
        var nature = new StoreAir(store, []).Nature;
        var truth = axis.ToAxis(leak.Fixture!, leak.Along);
        var first = -(int)(Math.Min(Reach, truth) / Step);
        var last = (int)(Math.Min(Reach, axis.Length - truth) / Step);
        var places = Enumerable.Range(first, last - first + 1).Select(i => truth + (i * Step)).ToArray();
        var gas = places.Select(s =>
        {
            var (fixture, along) = axis.At(s);
            return VisitReplay.Gas(store, visit, leak with { Fixture = fixture.Id, Along = along });
        }).ToArray();

        var answers = new List<KnowingAnswer>();
        foreach (var (i, stage) in new[] { Stage.Coarse, Stage.CloseIn, Stage.FansOff }.Index())
        {
            if (i > 0 && counts[i] == counts[i - 1]) break;
            var used = Enumerable.Range(0, counts[i]).Where(r => visit.Noted[r].HoldSeconds > 0 && axis.Fixtures.Any(f => f.Id == visit.Noted[r].Place.Fixture)).ToArray();
            var readings = used.Select(r => Heard.Of(store.Plan, axis, visit.Monitor, nature, visit.Noted[r])).ToArray();
            var log = gas.Select(g => LogEvidence(readings, [.. used.Select(r => g[r])])).ToArray();
            answers.Add(Answer(stage, places, log, truth));
        }

        return answers;
    }

    private static KnowingAnswer Answer(Stage stage, double[] places, double[] log, double truth)
    {
        var best = log.Max();
        var weight = log.Select(l => Math.Exp(l - best)).ToArray();
        var total = weight.Sum();
        double At(double share)
        {
            var sum = 0.0;
            for (var i = 0; i < places.Length; i++)
            {
                var next = sum + (weight[i] / total);
                if (next >= share) return places[i] + (Step * (((share - sum) / (next - sum)) - 0.5));
                sum = next;
            }

            return places[^1];
        }

        var (from, to) = (At(0.05), At(0.95));
        return new KnowingAnswer(stage, Math.Abs(At(0.5) - truth) / Ft, truth >= from - (Step / 2) && truth <= to + (Step / 2), (to - from) / Ft);
    }

    // Summed over strengths, evenly in the logarithm, about the one in the store.
    private static double LogEvidence(Heard[] readings, double[] gas)
    {
        var logs = Enumerable.Range(0, Strengths).Select(g => LogLikelihood(readings, gas, Math.Exp(LogReach * (((2.0 * g) / (Strengths - 1)) - 1)))).ToArray();
        var best = logs.Max();
        return best + Math.Log(logs.Sum(l => Math.Exp(l - best)));
    }

    private static double LogLikelihood(Heard[] readings, double[] gas, double strength)
    {
        var n = readings.Length;
        var gap = new double[n];
        var slope = new double[n];
        var covariance = DenseMatrix.Create(n, n, 0);
        for (var i = 0; i < n; i++)
        {
            var (r, m) = (readings[i], strength * gas[i]);
            slope[i] = m / (m + Bend);
            gap[i] = r.Silent(m) ? 0 : Math.Log((Math.Max(r.Ppm, 0) + Bend) / (m + Bend));
            for (var j = 0; j <= i; j++) covariance[i, j] = covariance[j, i] = r.Shared(readings[j]) * slope[i] * slope[j];
            covariance[i, i] += Square(r.Flicker * slope[i]) + Square(r.Deviation / (m + Bend));
        }

        var factor = covariance.Cholesky();
        var vector = Vector<double>.Build.Dense(gap);
        // The densities are of ln(reading + bend), the same transformation at every place and strength.
        return -0.5 * (vector.DotProduct(factor.Solve(vector)) + factor.DeterminantLn);
    }

    private static double Square(double x) => x * x;

    /// <summary>A held reading and what is known of its noise.</summary>
    /// <param name="At">Axis place, metres.</param>
    /// <param name="Ppm">The display less the store's own level; half the detection level where it showed nothing.</param>
    /// <param name="Bound">-1 nothing shown, 1 over range, 0 a number.</param>
    /// <param name="Field">Readings of one field share their patches: front, back, base, still.</param>
    /// <param name="Patch">Log deviation of the patch effect.</param>
    /// <param name="Flicker">Log deviation of the flicker left after the hold.</param>
    /// <param name="Deviation">Additive deviation, ppm.</param>
    private sealed record Heard(double At, double Ppm, int Bound, int Field, double Patch, double Flicker, double Deviation)
    {
        public static Heard Of(Plan plan, CaseAxis axis, HandMonitor monitor, AirNature nature, NotedReading r)
        {
            var fixture = plan.FindFixture(r.Place.Fixture)!;
            var along = r.Place.OnBack ? r.Place.Along * fixture.Front!.Length / fixture.Back!.Length : r.Place.Along;
            var still = r.Air == AirState.FansOff;
            var shown = r.Ppm;
            var bound = r.Shown.StartsWith('>') ? 1 : shown == 0 ? -1 : 0;
            var field = r.Place.Spot == Spot.KickPlate ? 2 : r.Place.OnBack ? 1 : still ? 3 : 0;
            return new Heard(
                axis.ToAxis(fixture.Id, along), bound < 0 ? monitor.DetectionPpm / 2 : (shown / monitor.Gain) - 0.2, bound, field, nature.PatchDeviation * (still ? 0.7 : 1),
                FlickerLeft * nature.Flicker * (still ? 0.6 : 1), Math.Sqrt(Square(monitor.NoisePpm) + (Square(monitor.StepPpm) / 12) + Square(0.2) + (bound < 0 ? Square(monitor.DetectionPpm) / 12 : 0)));
        }

        /// <summary>True when a modelled value says nothing: below what shows, or over the range.</summary>
        public bool Silent(double ppm) => Bound < 0 ? ppm < Ppm : Bound > 0 && ppm > Ppm;

        /// <summary>Covariance of the log patch effects.</summary>
        public double Shared(Heard other) => Field == other.Field ? Patch * other.Patch * Math.Exp(-Math.Abs(At - other.At) / PatchMetres) : 0;
    }
}
