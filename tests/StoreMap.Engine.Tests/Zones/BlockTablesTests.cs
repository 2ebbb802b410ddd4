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
    public void LogInPairs_OnTheDemosWalkInsAndRooms_EqualsLogSideBySide()
    {
        using var layout = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "tern-hollow.layout.json"));
        var plan = LayoutDocument.Read(layout).Plan;
        using var readings = File.OpenRead(SourceTree.PathOf("layouts", "tern-hollow", "2026-07-07.readings.csv"));
        var net = NetSurveyBuilder.Build(plan, SurveyReader.Read(readings, null, plan, ProbePlanner.Draft(plan, new Protocol()).Points).Survey);
        List<ReadingBlock> blocks = [.. BlockBuilder.OpenAir(plan, net), .. plan.Fixtures.Where(f => f.Kind == FixtureKind.WalkIn).SelectMany(f => BlockBuilder.Of(f, net))];
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
}
