using StoreMap.Fields;
using StoreMap.Surveys;
using static StoreMap.Tests.Air.AirPlans;
using static StoreMap.Tests.Fields.FieldCases;

namespace StoreMap.Tests.Fields;

/// <summary>Which floor a heat map colours.</summary>
public class EvidenceMaskTests
{
    // Three aisles between shelves; nobody walked the middle one.
    [Fact]
    public void Build_AisleNobodyVisited_StaysBlank()
    {
        var plan = Hall(20, 12) with { Obstacles = [Shelf("G1", 3, 3.5, 17, 4.5), Shelf("G2", 3, 7, 17, 8)] };
        var readings = Enumerable.Range(0, 15).SelectMany(k => new[] { At(3 + k, 2.9, k == 7 ? 30 : 0.5), At(3 + k, 8.6, 1, ReadingBound.Below) }).ToArray();
        foreach (var settings in new[] { new FieldSettings(), new FieldSettings { OpenFloor = true }, new FieldSettings { Estimate = false } })
        {
            var field = Map(plan, Survey(readings), settings);
            for (var i = 0; i < field.Grid.Count; i++)
            {
                var p = field.Grid.CentreOf(i);
                if (p.Y is > 4.5 and < 7 && p.X is > 3 and < 17) Assert.False(field.Evidence[i], $"{p}");
            }

            Assert.True(field.Evidence[Cell(field, 10, 2.9)]);
            Assert.True(field.Evidence[Cell(field, 10, 8.6)]);
        }
    }

    [Fact]
    public void Build_ClosedRoomWithoutReading_StaysBlankAndAtThePrior()
    {
        var plan = Hall(10, 6) with { Rooms = [Room("R1", Box(0, 0, 5, 6))] };
        var field = Map(plan, Survey(At(5.3, 3, 100)), new FieldSettings { OpenFloor = true });
        var (prior, _) = LevelMoments.Of(0, 2, 1);
        for (var i = 0; i < field.Grid.Count; i++)
        {
            if (field.Grid.CentreOf(i).X > 5) continue;
            Assert.False(field.Evidence[i]);
            Assert.Equal(prior, field.MeanPpm[i], 1e-9);
        }
    }

    // The strip along a probed front is coloured, the case's own air too; the case's back and the far floor are not.
    [Fact]
    public void Build_ProbedCase_ColoursItsAirAndTheStripBeforeIt()
    {
        var plan = Hall(12, 8) with { Fixtures = [Case("C1", 4, 4, 8, 5), Case("C2", 8, 4, 12, 5)] };
        var readings = Enumerable.Range(0, 4).Select(k => At(4.5 + k, 4, 3, fixture: "C1")).ToArray();
        var field = Map(plan, Survey(readings), new FieldSettings());
        Assert.True(field.Evidence[Cell(field, 6, 4.3)]);
        Assert.True(field.Evidence[Cell(field, 6, 3.3)]);
        Assert.False(field.Evidence[Cell(field, 6, 2.4)]);
        Assert.False(field.Evidence[Cell(field, 6, 5.2)]);
        Assert.False(field.Evidence[Cell(field, 8.4, 4.4)]);
    }

    // Two rows of readings across an aisle: a slit between their strips looked like floor that nobody had passed, a wide gap is such floor.
    [Theory]
    [InlineData(3.2, true)]
    [InlineData(4.5, false)]
    public void Build_GapBetweenProbedStrips_IsColouredWhenNarrow(double apart, bool coloured)
    {
        var readings = Enumerable.Range(0, 21).SelectMany(k => new[] { At(1 + (k / 2.0), 3, 3), At(1 + (k / 2.0), 3 + apart, 3) }).ToArray();
        var field = Map(Hall(12, 12), Survey(readings), new FieldSettings { Estimate = false });
        Assert.Equal(coloured, field.Evidence[Cell(field, 6, 3 + (apart / 2))]);
        Assert.True(field.Evidence[Cell(field, 6, 3.9)]);
        Assert.False(field.Evidence[Cell(field, 6, 1.4)]);
    }
}
