using StoreMap.Plans;
using StoreMap.Surveys;
using static StoreMap.Tests.Zones.HandMade;

namespace StoreMap.Tests.Zones;

/// <summary>Readings past the monitor's range. Common practice: they are the surest sign of gas there is.</summary>
public class OverRangeTests
{
    [Fact]
    public void Locate_OverRangeReading_IsAtLeastThatMuch()
    {
        var survey = Along((4, 20), (8, 300), (12, 1000), (16, 400), (20, 30));
        survey = survey with { Readings = [.. survey.Readings.Select(r => r.NetPpm >= 1000 ? r with { Bound = ReadingBound.AtLeast } : r)] };
        var result = Locating.Locate(Case(LengthUnit.Foot), survey, []);
        var zone = Assert.Single(result.Zones);
        Assert.InRange(zone.Center!.Value, 11 * Foot, 13.5 * Foot);
        Assert.Contains("over range", zone.Reason, StringComparison.Ordinal);
        Assert.Equal("large", zone.Strength);
    }

    /// <summary>More gas is no less of a leak: a reading past the monitor's range, with what followed it held for carry-over, against the
    /// same places read at 950 ppm.</summary>
    [Fact]
    public void Locate_OverRangeBesideAHit_IsNoLessALeakThanTheSameReadInRange()
    {
        (double, double)[] readings = [(4, 0), (10.8, 14.5), (18, 950), (22.8, 12), (30, 0)];
        var inRange = Locating.Locate(Case(LengthUnit.Foot), Along(readings), []);
        var survey = Along([.. readings.Select(r => r.Item2 > 900 ? (r.Item1, 1000) : r)]);
        survey = survey with
        {
            Readings = [.. survey.Readings.Select(r => r.NetPpm >= 1000 ? r with { Bound = ReadingBound.AtLeast }
                : r.NetPpm == 12 ? r with { Bound = ReadingBound.Below, CarryOver = true } : r)],
        };
        var over = Locating.Locate(Case(LengthUnit.Foot), survey, []);
        Assert.True(inRange.Zones.Sum(z => z.Probability) > 0.85);
        Assert.True(over.Zones.Sum(z => z.Probability) > 0.85);
        Assert.True(over.Zones[0].PeakOverRange);
        Assert.Equal(1000, over.Zones[0].PeakPpm);
        Assert.False(inRange.Zones[0].PeakOverRange);
    }

    [Fact]
    public void Locate_CleanPeakAndAnOverRangeNeighbour_CallsNeitherNoLeakSeenAndKeepsBothInQuestion()
    {
        var across = Neighbour("C3", 3.6);
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], across] };
        var survey = Along((2, 0), (6, 3), (10, 14), (14, 22), (18, 8), (22, 1), (27, 0));
        var over = Reading(20, 1000, new ReadingPlace { Fixture = "C3", Along = 12 * Foot, At = across.Front!.PointAt(12 * Foot) }) with { Bound = ReadingBound.AtLeast };
        survey = survey with { Readings = [.. survey.Readings, over] };
        var result = Locating.Locate(plan, survey, []);
        Assert.Empty(result.NoLeakSeen);
        Assert.Contains(result.Zones, z => z.Fixture == "C1" && z.Probability > 0.05);
        // A lone reading cannot tell a leak in the case from a line above it.
        Assert.Contains(result.Zones, z => z.Fixture == "C3" && z.Probability > 0.5);
    }

    /// <summary>A weak leak across the aisle explains no gas over the monitor's range, however steep and lonely that is.</summary>
    [Fact]
    public void Locate_LoneOverRangeReading_IsNeverNoLeakSeenNorExplainedByAWeakerLeak()
    {
        var across = Neighbour("C3", 3.6);
        var plan = Case(LengthUnit.Foot) with { Fixtures = [Case(LengthUnit.Foot).Fixtures[0], across] };
        var survey = Along((2, 0), (6, 3), (10, 14), (14, 22), (18, 8), (22, 1), (27, 0));
        NetReading Across(double feet, double ppm) =>
            Reading(20, ppm, new ReadingPlace { Fixture = "C3", Along = feet * Foot, At = across.Front!.PointAt(feet * Foot) });
        survey = survey with
        {
            Readings = [.. survey.Readings, Across(2, 0), Across(6, 0), Across(10, 30), Across(14, 1000) with { Bound = ReadingBound.AtLeast }, Across(18, 20), Across(22, 0)],
        };
        var result = Locating.Locate(plan, survey, []);
        Assert.DoesNotContain(result.NoLeakSeen, n => n.Fixture == "C3");
        Assert.DoesNotContain(result.Zones, z => z.Fixture == "C1" && z.Reason.Contains("explains the 1000", StringComparison.Ordinal));
        Assert.True(result.Zones.Any(z => z.Fixture == "C3") || result.Elsewhere.Any(e => e.Near == "C3"));
    }
}
