using CsCheck;
using StoreMap.Plans;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

public class SearchTests
{
    // Expected panels opened: uniform over 12 is (12 + 1) / 2.
    [Fact]
    public void ExpectedOpened_TwelveEqualPanels_IsSixAndAHalf() =>
        Assert.Equal(6.5, OpeningOrder.ExpectedOpened(Enumerable.Repeat(1.0 / 12, 12)), 1e-12);

    // Normal posterior anywhere against the panels' edges, by the normal distribution function: sd 1 ft with 2-ft panels 1.49, with 1-ft
    // panels 2.19; sd 2 ft: 2.19 and 3.74; sd 4 ft: 3.74 and 6.91 (simulated to two digits, hence 0.01).
    [Theory]
    [InlineData(1, 2, 1.49)]
    [InlineData(1, 1, 2.19)]
    [InlineData(2, 2, 2.19)]
    [InlineData(2, 1, 3.74)]
    [InlineData(4, 2, 3.74)]
    [InlineData(4, 1, 6.91)]
    public void ExpectedOpened_NormalPosterior_IsTheTable(double deviation, double panel, double expected)
    {
        var mean = Enumerable.Range(0, 20).Average(offset => OpeningOrder.ExpectedOpened(Enumerable.Range(-60, 121).Select(i =>
            NormalLaw.Phi((i + 0.5 + (offset / 20.0)) * panel / deviation) - NormalLaw.Phi((i - 0.5 + (offset / 20.0)) * panel / deviation))));
        Assert.Equal(expected, mean, 0.01);
    }

    [Fact]
    public void Of_ByProbabilityPerMinute_BeatsEveryOtherOrder() =>
        Gen.Select(Gen.Double[0.01, 1].Array[5], Gen.Double[1, 20].Array[5]).Sample((chances, minutes) =>
        {
            var total = chances.Sum();
            var plan = new Plan
            {
                Id = "p", Name = "p", Outline = [],
                Fixtures =
                [
                    new Fixture
                    {
                        Id = "C", Tag = "C", Kind = FixtureKind.OpenCase, Outline = [],
                        Panels = [.. minutes.Select((m, i) => new Panel($"C/{i}", PanelKind.DeckPan, i, i + 1, m))],
                    },
                ],
            };
            var zone = new LeakZone
            {
                Fixture = "C", Probability = 0.8, At = new(0, 0), PeakPpm = 1, Strength = "small", Reason = "",
                Panels = [.. chances.Select((c, i) => new PanelChance($"C/{i}", i, i + 1, c / total))],
            };
            var ours = OpeningOrder.Of(plan, [zone]).Select(id => id[^1] - '0').ToArray();
            var best = Permutations([0, 1, 2, 3, 4]).Min(Minutes);
            Assert.Equal(best, Minutes(ours), 1e-9);

            double Minutes(int[] order)
            {
                var (spent, expected) = (0.0, 0.0);
                foreach (var i in order)
                {
                    spent += minutes[i];
                    expected += chances[i] / total * spent;
                }

                return expected;
            }
        }, iter: 100);

    // Ten equal candidates told apart perfectly: ln 10 = 2.302585 nat.
    [Fact]
    public void Information_TenCandidatesToldApart_IsLnTen() =>
        Assert.Equal(2.302585, Information.Of([.. Enumerable.Range(0, 10).Select(i => i * 40.0)], [.. Enumerable.Repeat(0.1, 10)]), 1e-5);

    // A normal signal of variance 9 in noise of variance 1: 0.5 ln(1 + 9) = 1.151293 nat.
    [Fact]
    public void Information_NormalSignal_IsHalfLnOnePlusRatio()
    {
        var means = Enumerable.Range(-300, 601).Select(i => i * 0.05).ToArray();
        var weights = means.Select(m => Math.Exp(-m * m / 18)).ToArray();
        var total = weights.Sum();
        Assert.Equal(1.151293, Information.Of(means, [.. weights.Select(w => w / total)]), 1e-5);
    }

    private static IEnumerable<int[]> Permutations(int[] of)
    {
        if (of.Length <= 1)
        {
            yield return of;
            yield break;
        }

        foreach (var first in of)
        {
            foreach (var rest in Permutations([.. of.Where(x => x != first)])) yield return [first, .. rest];
        }
    }
}
