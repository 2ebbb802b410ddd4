using CsCheck;
using StoreMap.Fields;
using StoreMap.Plans;

namespace StoreMap.Tests.Fields;

public class IsobandsTests
{
    private const double Tolerance = 1e-6;

    private static readonly Gen<(FieldGrid Grid, double[] Values, bool[] Counts, bool[] Right, bool[] Up)> RandomField =
        from columns in Gen.Int[1, 9]
        from rows in Gen.Int[1, 9]
        // Whole numbers, so that nodes often lie exactly on a level; some are missing.
        from values in Gen.Frequency((3, Gen.Int[0, 6].Select(i => (double)i)), (3, Gen.Double[0, 6]), (1, Gen.Const(double.NaN)))
            .Array[columns * rows]
        from counts in Gen.Frequency((4, Gen.Const(true)), (1, Gen.Const(false))).Array[columns * rows]
        from walls in Gen.Frequency((3, Gen.Const(true)), (1, Gen.Const(false))).Array[2 * columns * rows]
        select (new FieldGrid(new PlanPoint(-1, 2), 0.5, columns, rows), values, counts, walls[..(columns * rows)], walls[(columns * rows)..]);

    [Fact]
    public void Trace_ReferenceField_HasTheLibrarysAreas()
    {
        var (grid, values) = IsolinesTests.Reference();
        foreach (var level in IsolinesTests.ReferenceLevels())
        {
            var bands = Isobands.Trace(grid, values, [double.NegativeInfinity, level.GetProperty("level").GetDouble()]);
            Assert.Equal(level.GetProperty("area_lt_m2").GetDouble(), bands[0].SquareMetres, Tolerance * 1000);
            Assert.Equal(1, bands[1].SquareMetres / level.GetProperty("area_ge_m2").GetDouble(), Tolerance);
        }
    }

    [Fact]
    public void TraceCells_AnyField_BandsPartitionTheCellsThatCount() => RandomField.Sample(f =>
    {
        var bands = Isobands.TraceCells(f.Grid, f.Values, f.Counts, [double.NegativeInfinity, 1, 2, 3.5, 5], f.Right, f.Up);
        var cells = Enumerable.Range(0, f.Grid.Count).Where(i => f.Counts[i] && double.IsFinite(f.Values[i])).ToList();
        Assert.Equal(cells.Count * 0.25, bands.Sum(b => b.SquareMetres), 9);
        Assert.All(bands, b => Assert.True(b.SquareMetres >= 0));
        // Any point off the lines lies in exactly one band when its cell counts, in none otherwise (even-odd rule).
        for (var i = 0; i < f.Grid.Count; i++)
        {
            var p = f.Grid.CentreOf(i) + new PlanPoint(0.0731, -0.0617);
            Assert.Equal(cells.Contains(i) ? 1 : 0, bands.Count(b => Holds(b, p)));
        }
    });

    [Fact]
    public void TraceCells_AnyField_CellCentresLieInTheBandOfTheirValue() => RandomField.Sample(f =>
    {
        var bands = Isobands.TraceCells(f.Grid, f.Values, f.Counts, [double.NegativeInfinity, 1.25, 2.75, 4.5], f.Right, f.Up);
        for (var i = 0; i < f.Grid.Count; i++)
        {
            // Within 1e-3 of a level the centre may lie on the line itself.
            if (!f.Counts[i] || !double.IsFinite(f.Values[i]) || bands.Any(b => Math.Abs(b.Low - f.Values[i]) < 1e-3)) continue;
            var p = f.Grid.CentreOf(i) + new PlanPoint(1.3e-5, 0.7e-5);
            Assert.True(Holds(bands.Single(b => b.Low <= f.Values[i] && f.Values[i] < b.High), p));
        }
    });

    [Fact]
    public void Trace_AnyField_TopBandShrinksAsItsLevelRises() => RandomField.Sample(f =>
    {
        var areas = new[] { 1.0, 2.0, 3.5, 5.0 }.Select(l => Isobands.Trace(f.Grid, f.Values, [l])[0].SquareMetres).ToList();
        for (var i = 1; i < areas.Count; i++) Assert.True(areas[i] <= areas[i - 1] + 1e-9);
    });

    [Fact]
    public void Trace_ManyLevels_EachBandIsTheDifferenceOfTwoTopBands()
    {
        var (grid, values) = IsolinesTests.Reference();
        double[] levels = [2.5, 4, 6, 8, 10];
        var bands = Isobands.Trace(grid, values, levels);
        var tops = levels.Select(l => Isobands.Trace(grid, values, [l])[0].SquareMetres).Append(0).ToList();
        for (var i = 0; i < levels.Length; i++) Assert.Equal(tops[i] - tops[i + 1], bands[i].SquareMetres, 6);
    }

    [Fact]
    public void TraceCells_IslandInRing_LeavesAHole()
    {
        var values = Enumerable.Repeat(3.0, 25).ToArray();
        values[12] = 0;
        var band = Isobands.TraceCells(new FieldGrid(new PlanPoint(0, 0), 1, 5, 5), values, null, [2])[0];
        Assert.Equal(2, band.Rings.Count);
        Assert.Equal([25.0], band.Rings.Select(Ring.SignedArea).Where(a => a > 0));
        Assert.Single(band.Rings, r => Ring.SignedArea(r) < 0);
        Assert.False(Holds(band, new PlanPoint(2.01, 2.02)));
    }

    [Fact]
    public void TraceCells_WallBetweenCells_NoBandOfOneSideReachesTheOther()
    {
        // A wall along x = 2 with 40 ppm before and 0 behind it; open above y = 2, where the field goes round its end.
        var grid = new FieldGrid(new PlanPoint(0.5, 0.5), 1, 4, 4);
        var values = Enumerable.Range(0, 16).Select(i => i % 4 < 2 ? 40.0 : 0.0).ToArray();
        var open = Enumerable.Range(0, 16).Select(i => i % 4 != 1 || i / 4 >= 2).ToArray();
        var band = Isobands.TraceCells(grid, values, null, [1], open, null)[0];
        for (var y = 0.05; y < 1.5; y += 0.1)
        {
            Assert.True(Holds(band, new PlanPoint(1.999, y)));
            Assert.False(Holds(band, new PlanPoint(2.001, y)));
        }

        // The half cell below the wall's end already turns; above it the level lies between the centres.
        Assert.True(Holds(band, new PlanPoint(2.2, 3)));
        Assert.All(Isolines.TraceCells(grid, values, null, [1], open, null).SelectMany(l => l.Points), p => Assert.True(p.Y >= 1.5));
        Assert.Contains(Isolines.TraceCells(grid, values, null, [1]).SelectMany(l => l.Points), p => p.Y < 0.5);
    }

    [Fact]
    public void TraceCells_WallEndingInOpenFloor_TakesNoArea() =>
        Assert.Equal(16, Isobands.TraceCells(
            new FieldGrid(new PlanPoint(0, 0), 1, 4, 4), Enumerable.Repeat(3.0, 16).ToArray(), null, [1],
            [.. Enumerable.Range(0, 16).Select(i => i != 5)], null)[0].SquareMetres, 12);

    [Fact]
    public void TraceCells_CellsTouchingByACorner_StaySeparateRings()
    {
        var band = Isobands.TraceCells(new FieldGrid(new PlanPoint(0, 0), 1, 2, 2), [5, double.NaN, double.NaN, 5], null, [1])[0];
        Assert.Equal([1.0, 1.0], band.Rings.Select(Ring.SignedArea));
    }

    [Fact]
    public void Trace_Field_LeavesFloorWithoutEvidenceOutOfEveryBand()
    {
        var field = new GasField
        {
            Grid = new FieldGrid(new PlanPoint(0, 0), 1, 3, 1), MeanPpm = [4, 4, 4], DeviationPpm = [1, 1, 1],
            Evidence = [true, false, true], Exceedance = [1, 1, 1], ActionPpm = 2,
        };
        var band = Isobands.Trace(field, [double.NegativeInfinity])[0];
        Assert.Equal(2, band.SquareMetres, 12);
        Assert.False(Holds(band, new PlanPoint(1, 0.01)));
    }

    [Fact]
    public void TraceAbove_Levels_GivesTheSameRingsAsEachLevelAlone()
    {
        var random = new Random(3);
        double[] mean = [.. Enumerable.Range(0, 300).Select(_ => 10 * random.NextDouble())];
        var field = new GasField
        {
            Grid = new FieldGrid(new PlanPoint(0, 0), 1, 20, 15), MeanPpm = mean, DeviationPpm = mean, Exceedance = mean, ActionPpm = 2,
            Evidence = [.. mean.Select((_, i) => i % 7 != 3)], OpenRight = [.. mean.Select((_, i) => i % 11 != 4)], OpenUp = [.. mean.Select((_, i) => i % 13 != 4)],
        };
        double[] levels = [double.NegativeInfinity, 2, 5, 8];
        var together = Isobands.TraceAbove(field, levels);
        foreach (var (level, area) in levels.Zip(together)) Assert.Equal(Isobands.Trace(field, [level])[0].Rings, area.Rings);
        Assert.True(together.Zip(together.Skip(1)).All(p => p.First.SquareMetres > p.Second.SquareMetres));
        Assert.Throws<ArgumentException>(() => Isobands.TraceAbove(field, [2, 1]));
    }

    [Theory]
    [InlineData(2.0, 2.0)]
    [InlineData(3.0, 2.0)]
    [InlineData(1.0, double.PositiveInfinity)]
    [InlineData(double.NaN, 1.0)]
    public void Trace_LevelsThatDontAscend_AreRefused(double first, double second) =>
        Assert.Throws<ArgumentException>(() => Isobands.Trace(new FieldGrid(new PlanPoint(0, 0), 1, 2, 2), [1, 2, 3, 4], [first, second]));

    private static bool Holds(Isoband band, PlanPoint p) => band.Rings.Count(r => IsolinesTests.Inside(r, p)) % 2 == 1;
}
