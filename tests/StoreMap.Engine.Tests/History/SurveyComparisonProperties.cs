using CsCheck;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Zones;
using static StoreMap.Tests.History.TestShop;

namespace StoreMap.Tests.History;

public class SurveyComparisonProperties
{
    private static readonly Gen<LeakZone> RandomZone =
        from fixture in Gen.Bool
        from start in Gen.Int[0, 30]
        from length in Gen.Int[2, 15]
        from peak in Gen.Int[2, 60]
        select Zone(fixture ? "C1" : "C2", start / 10.0, (start + length) / 10.0, peak, 0.6 + (peak / 200.0));

    private static readonly Gen<NetReading> RandomReading =
        from fixture in Gen.Bool
        from along in Gen.Int[0, 40]
        from net in Gen.Int[-1, 50]
        from bound in Gen.Frequency((8, Gen.Const(ReadingBound.Exact)), (1, Gen.Const(ReadingBound.Below)), (1, Gen.Const(ReadingBound.AtLeast)))
        from off in Gen.Frequency((4, Gen.Const(false)), (1, Gen.Const(true)))
        select At(fixture ? "C1" : "C2", along / 10.0, net, n => n with
        {
            Bound = bound, Reading = n.Reading with { Air = off ? AirState.FansOff : AirState.FansOn },
        });

    private static readonly Gen<List<SurveyVisit>> RandomVisits =
        from visits in Gen.Select(RandomZone.Array[0, 4], RandomReading.Array[0, 12]).Array[1, 5]
        select visits.Select((v, i) => Visit(Day(1, 1).AddDays(31 * i), v.Item2, Located(v.Item1))).ToList();

    [Fact]
    public void Compare_SurveyWithItself_ShowsNothingNewAndNothingGone() => RandomVisits.Sample(visits =>
    {
        var zones = SurveyComparison.Compare(Shop, [visits[0], visits[0]]).Zones;
        Assert.All(zones, z => Assert.Equal(ZoneChange.Recurring, z.Change));
        Assert.Equal(visits[0].Result.Zones.Count, zones.Count);
    });

    [Fact]
    public void Compare_OrderOfVisitsZonesAndReadings_ChangesNothing() => RandomVisits.Sample(visits =>
    {
        var turned = Enumerable.Reverse(visits).Select(v => v with
        {
            Survey = v.Survey with { Readings = [.. v.Survey.Readings.Reverse()] },
            Result = v.Result with { Zones = [.. v.Result.Zones.Reverse()] },
        }).ToList();
        Assert.Equal(Told(SurveyComparison.Compare(Shop, visits)), Told(SurveyComparison.Compare(Shop, turned)));
    });

    [Fact]
    public void Compare_ConstantAddedToARoom_ChangesNothing() =>
        (from visits in RandomVisits from shift in Gen.Double[0, 40] select (visits, shift)).Sample(d =>
        {
            // The monitor shows more and so does the room: the net stays.
            var raised = d.visits.Select((v, i) => i % 2 == 0 ? v : v with
            {
                Survey = v.Survey with
                {
                    Readings = [.. v.Survey.Readings.Select(n => n with
                    {
                        BackgroundPpm = n.BackgroundPpm + d.shift, Reading = n.Reading with { Ppm = n.Reading.Ppm + d.shift },
                    })],
                },
            }).ToList();
            Assert.Equal(Told(SurveyComparison.Compare(Shop, d.visits)), Told(SurveyComparison.Compare(Shop, raised)));
        });

    [Fact]
    public void Compare_AnyVisits_TellsEachSightingOnce() => RandomVisits.Sample(visits =>
    {
        var result = SurveyComparison.Compare(Shop, visits);
        for (var v = 0; v < visits.Count; v++) Assert.Equal(visits[v].Result.Zones.Count, result.Zones.Count(z => z.Visits[v].Seen));
        Assert.All(result.Zones, z => Assert.Equal(visits.Count, z.Visits.Count));
        Assert.All(result.Zones, z => Assert.Contains(z.Visits, s => s.Seen));
        Assert.All(result.Zones, z => Assert.DoesNotContain("repaired", z.Note));
        Assert.Equal(result.Zones.Select(z => (int)z.Change switch { 1 => 0, 0 => 1, var c => c }).Order(), result.Zones.Select(z => (int)z.Change switch { 1 => 0, 0 => 1, var c => c }));
        // "No longer seen" needs a like reading at the latest visit with nothing to show.
        Assert.All(result.Zones.Where(z => z.Change == ZoneChange.NoLongerSeen), z => Assert.False(z.Visits[^1].Seen || z.Visits[^1].PeakPpm is null || z.Visits[^1].Hit));
    });

    private static string Told(Comparison c) =>
        string.Join("\n", c.Zones.Select(z => $"{z.Fixture} {z.From:R} {z.To:R} {z.Change} {z.Trend} {z.Note} {string.Join(",", z.Visits)}")
            .Concat(c.NotComparable.Select(n => $"{n.Fixture} {n.Reason} {string.Join(",", n.Dates)}")));
}
