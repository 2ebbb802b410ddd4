using StoreMap.Tests.Zones.Forward;

namespace StoreMap.Tests.Zones;

/// <summary>Leaks put into simulated stores whose air is worked out by other physics than the locator's (time-dependent advection and
/// dispersion under wandering draughts, coupled to the aisle), then located.</summary>
public class RecoveryTests(ITestOutputHelper output)
{
    [Fact(Explicit = true)]
    public void Evaluation_SingleLeaks_PrintsTheTable()
    {
        foreach (var rough in new[] { false, true })
        {
            var scores = Enumerable.Range(1, 100).AsParallel().AsOrdered().WithDegreeOfParallelism(2).SelectMany(seed => Trial.SingleLeak(seed, rough)).ToList();
            output.WriteLine(rough ? "rough" : "smooth");
            Print(scores, "all");
            foreach (var group in scores.Select(s => s.Group).Distinct().Order()) Print([.. scores.Where(s => s.Group == group)], group);
            foreach (var s in scores.Where(s => s.Error > 5 && s.Stage > 1)) output.WriteLine(s.ToString());
        }
    }

    [Fact(Explicit = true)]
    public void Evaluation_TwoLeaks_PrintsTheTable()
    {
        foreach (var share in new[] { 1, 0.3, 0.1 })
        {
            foreach (var rough in new[] { false, true })
            {
                var scores = Enumerable.Range(1, 100).AsParallel().AsOrdered().WithDegreeOfParallelism(2).SelectMany(seed => Trial.TwoLeaks(seed, rough, share)).ToList();
                foreach (var stage in new[] { 1, 2, 3 })
                {
                    var of = scores.Where(s => s.Stage == stage).ToList();
                    output.WriteLine(FormattableString.Invariant(
                        $"second {share} of first {(rough ? "rough" : "smooth")} stage {stage} n {of.Count}: both {100.0 * of.Count(s => s.Found == 2) / of.Count:F0} % one {100.0 * of.Count(s => s.Found == 1) / of.Count:F0} % false {of.Average(s => s.False):F2}"));
                }
            }
        }
    }

    private void Print(List<TrialScore> scores, string name)
    {
        for (var stage = 1; stage <= 3; stage++)
        {
            var of = scores.Where(s => s.Stage == stage).ToList();
            if (of.Count == 0) continue;
            output.WriteLine(FormattableString.Invariant(
                $"{name,-12} {stage} n {of.Count,3}: error {Quantile(of, s => s.Error, 0.5):F2}/{Quantile(of, s => s.Error, 0.9):F2} habit {Quantile(of, s => s.HabitError, 0.5):F2}/{Quantile(of, s => s.HabitError, 0.9):F2} right {Share(of, s => s.RightFixture):F1} habit {Share(of, s => s.HabitRightFixture):F1} cover {Share(of, s => s.Covered):F1} width {Quantile(of, s => s.Width, 0.5):F1} opened {of.Average(s => s.Opened):F2} p {of.Average(s => s.Probability):F2} e {of.Average(s => s.Elsewhere):F2}"));
        }
    }

    private static double Share(List<TrialScore> scores, Func<TrialScore, bool> of) => 100.0 * scores.Count(of) / scores.Count;

    private static double Quantile(List<TrialScore> scores, Func<TrialScore, double> of, double q)
    {
        var values = scores.Select(of).Order().ToArray();
        return values[(int)Math.Min(values.Length - 1, q * values.Length)];
    }
}
