using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Surveys;
using StoreMap.Tests.Rules;
using StoreMap.Zones;

namespace StoreMap.Tests.Zones;

/// <summary>The likelihood with vectors of four numbers and of two, which is what a browser has.</summary>
public class BlockTablesTests
{
    /// <summary>Sums of some hundred terms in another order.</summary>
    private const double Rounding = 1e-10;

    [Fact]
    public void LogInPairs_OnTheDemosVisit_EqualsLogSideBySide()
    {
        var (plan, net) = Demo();
        List<ReadingBlock> blocks = [.. BlockBuilder.OpenAir(plan, net), .. plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn).SelectMany(f => BlockBuilder.Of(f, net)), .. LineUps.Of(plan).SelectMany(a => BlockBuilder.Of(a, net))];
        Assert.True(blocks.Sum(b => b.Readings.Length) > 20);
        foreach (var block in blocks)
        {
            foreach (var level in new[] { -8.0, -1, 0.5, 2, 4 })
            {
                block.Quiet.SetShape([.. block.Readings.Select((_, i) => level - (0.3 * i))]);
                foreach (var (shift, extra) in new[] { (0, 0.0), (17, 0.2), (-40, 1) })
                {
                    var (pairs, all) = (block.Quiet.LogInPairs(shift, extra), block.Quiet.LogSideBySide(shift, extra));
                    Assert.InRange(pairs, all - (Rounding * (1 + Math.Abs(all))), all + (Rounding * (1 + Math.Abs(all))));
                }
            }
        }
    }

    /// <summary>The walk over strengths that ends where terms are out of sight, against the sum of them all, in every sixth cell of the demo's line-ups.</summary>
    [Fact]
    public void OneLeak_WalkOverStrengths_EqualsTheWholeSum()
    {
        var (plan, net) = Demo();
        var cells = 0;
        foreach (var block in LineUps.Of(plan).SelectMany(a => BlockBuilder.Of(a, net)))
        {
            var settings = AirRegime.Of(SourceKind.Coil, block.FansOn);
            var walked = new StateFit(block, settings, SourceKind.Coil, _ => Math.Log(25), 2);
            var whole = new StateFit(block, settings, SourceKind.Coil, _ => Math.Log(25), 2) { Unseen = double.PositiveInfinity };
            for (var c = 0; c < block.Axis!.Count; c += 6, cells++)
            {
                Assert.Equal(whole.AtCell(block.Quiet, c, FitEffort.Fine, null), walked.AtCell(block.Quiet, c, FitEffort.Fine, null), 1e-6);
            }
        }

        Assert.True(cells > 100);
    }

    private static (Plan Plan, NetSurvey Net) Demo()
    {
        using var layout = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.layout.json"));
        var plan = LayoutDocument.Read(layout).Plan;
        using var readings = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "2026-07-07.readings.csv"));
        var net = NetSurveyBuilder.Build(plan, SurveyReader.Read(readings, null, plan, ProbePlanner.Draft(plan, new Protocol()).Points).Survey);
        return (plan, net);
    }
}
