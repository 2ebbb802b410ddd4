using StoreMap.Fields;
using StoreMap.Plans;
using static StoreMap.Tests.Air.AirPlans;
using static StoreMap.Tests.Fields.FieldCases;

namespace StoreMap.Tests.Fields;

public class FieldSamplerTests
{
    [Fact]
    public void At_EitherSideOfAWall_DoesNotMix()
    {
        var plan = Hall(10, 6) with { Rooms = [Room("R1", Box(0, 0, 5.07, 6))] };
        var field = Map(plan, Survey(At(4.8, 4, 40), At(5.3, 4, 0)));
        var sampler = new FieldSampler(plan, field);
        Assert.InRange(sampler.At(new(5.06, 4)).MeanPpm, 36, 44);
        Assert.InRange(sampler.At(new(5.08, 4)).MeanPpm, 0, 4);
    }

    [Fact]
    public void At_CellCentreAndBetween_IsTheCellAndInBetween()
    {
        var plan = Hall(8, 6);
        var field = Map(plan, Survey(At(3.1, 3.1, 20), At(5.1, 3.1, 1)));
        var sampler = new FieldSampler(plan, field);
        var (a, b) = (Cell(field, 3.4, 3.1), Cell(field, 3.6, 3.1));
        Assert.Equal(field.MeanPpm[a], sampler.At(field.Grid.CentreOf(a)).MeanPpm, 1e-9);
        var middle = sampler.At((field.Grid.CentreOf(a) + field.Grid.CentreOf(b)) * 0.5);
        Assert.InRange(middle.MeanPpm, Math.Min(field.MeanPpm[a], field.MeanPpm[b]), Math.Max(field.MeanPpm[a], field.MeanPpm[b]));
        Assert.True(middle.LowPpm < middle.MeanPpm && middle.MeanPpm < middle.HighPpm);
    }

    [Fact]
    public void At_OutsideTheStore_IsNothing()
    {
        var plan = Hall(8, 6);
        var value = new FieldSampler(plan, Map(plan, Survey(At(3, 3, 20)))).At(new PlanPoint(20, 3));
        Assert.True(double.IsNaN(value.MeanPpm) && !value.Evidence);
    }

    [Fact]
    public void Write_Field_OneRowPerColouredCellWithPoints()
    {
        var field = Map(Hall(8, 6), Survey(At(3.1, 3.1, 20)));
        var lines = GridCsv.Write(field, LengthUnit.Foot).TrimEnd('\n').Split('\n');
        Assert.Equal("x,y,ppm,deviation,low,high,exceedance,median", lines[0]);
        Assert.Equal(field.Evidence.Count(e => e), lines.Length - 1);
        Assert.All(lines, line => Assert.Equal(8, line.Split(',').Length));
        var first = Array.IndexOf(field.Evidence, true);
        Assert.StartsWith((field.Grid.CentreOf(first).X / 0.3048).ToString("0.####", System.Globalization.CultureInfo.InvariantCulture) + ",", lines[1], StringComparison.Ordinal);
    }
}
