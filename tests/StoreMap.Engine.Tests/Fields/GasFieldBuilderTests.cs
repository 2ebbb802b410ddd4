using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Surveys;
using StoreMap.Tests.Air;
using StoreMap.Tests.Oracles;
using static StoreMap.Tests.Air.AirPlans;
using static StoreMap.Tests.Fields.FieldCases;

namespace StoreMap.Tests.Fields;

public class GasFieldBuilderTests
{
    // A wall at x between a reading of 40 ppm and one of none, 0.5 m apart:
    //   +-----+-----+
    //   |  40 | 0   |
    //   |           |   (with or without a way round)
    //   +-----+-----+
    [Theory]
    [InlineData(5.0, true, 0.25)]
    [InlineData(5.07, true, 0.25)]
    [InlineData(5.0, false, 0.25)]
    [InlineData(5.13, false, 0.25)]
    [InlineData(5.0, true, 0.1)]
    public void Build_ReadingsEitherSideOfAWall_DoNotMeet(double wall, bool wayRound, double cell)
    {
        var room = wayRound ? Room("R1", Box(0, 0, wall, 6), new PlanSegment(new(wall, 0), new(wall, 1.2))) : Room("R1", Box(0, 0, wall, 6));
        var plan = Hall(10, 6) with { Rooms = [room] };
        var readings = new[] { At(wall - 0.25, 4, 40, deviation: 1), At(wall + 0.25, 4, 0, deviation: 0.5) };
        var field = Map(plan, Survey(readings), new FieldSettings { CellMetres = cell });
        var near = Enumerable.Range(0, field.Grid.Count).Where(i =>
            Math.Abs(field.Grid.CentreOf(i).Y - 4) < 0.3 && Math.Abs(field.Grid.CentreOf(i).X - wall) < 0.3).ToArray();
        bool Holds(GasField f, int i) => f.Grid.CentreOf(i).X < wall ? f.MeanPpm[i] is >= 36 and <= 44 : f.MeanPpm[i] is >= 0 and <= 4;
        Assert.True(near.Length >= 4);
        Assert.All(near, i => Assert.True(Holds(field, i), FormattableString.Invariant($"{field.MeanPpm[i]} at {field.Grid.CentreOf(i)}")));

        // The same readings without the wall do meet: plain distances would fail the bounds above.
        var open = Map(Hall(10, 6), Survey(readings), new FieldSettings { CellMetres = cell });
        Assert.Contains(near, i => !Holds(open, i));
    }

    // Nothing was read on the case; its far end, in reach but not probed, may hold anything. What may be is no gas on the map.
    [Fact]
    public void Build_NothingReadOnACase_ShowsNoGasAtItsUnprobedEnd()
    {
        var field = Map(Hall(12, 6), Survey(At(1.2, 3, 0), At(2.6, 3, 0), At(4, 3, 0)), new FieldSettings { Spread = 3 });
        var end = Cell(field, 4.9, 3);
        Assert.True(field.Evidence[end]);
        Assert.True(field.MeanPpm[end] > 2, $"{field.MeanPpm[end]}");
        Assert.All(Enumerable.Range(0, field.Grid.Count).Where(i => field.Evidence[i]), i => Assert.InRange(field.MedianPpm[i], 0, 0.5));
        Assert.Empty(Isolines.Trace(field, [1, 2]));
        Assert.Empty(Isobands.Trace(field, [1, 2]).SelectMany(b => b.Rings));
    }

    // What a map found of the store serves the next visit's, whose readings are others at other places; another plan's or other cells' is refused.
    [Fact]
    public void Build_OnTheGroundOfAnEarlierMap_IsTheSame()
    {
        var plan = Hall(20, 12) with { Obstacles = [Shelf("G1", 3, 3.5, 17, 4.5)], Rooms = [Room("R1", Box(0, 8, 6, 12))] };
        var settings = new FieldSettings { CellMetres = 0.5, Estimate = false };
        var ground = FieldGround.Of(plan, settings.CellMetres);
        foreach (var survey in new[] { Survey(At(4, 2, 40), At(4, 10, 3), At(15, 7, 1, ReadingBound.Below)), Survey(At(10, 2, 9), At(12, 6, 100, ReadingBound.AtLeast), At(2, 9, 0)) })
        {
            var alone = Map(plan, survey, settings);
            var shared = Map(plan, survey, settings, ground);
            Assert.Contains(alone.MeanPpm, v => v > 5);
            Assert.All(alone.MeanPpm.Zip(shared.MeanPpm), Alike);
            Assert.All(alone.DeviationPpm.Zip(shared.DeviationPpm), Alike);
            Assert.Equal(alone.Evidence, shared.Evidence);
        }

        Assert.Throws<ArgumentException>(() => Map(Hall(20, 12), Survey(), settings, ground));
        Assert.Throws<ArgumentException>(() => Map(plan, Survey(), new FieldSettings(), ground));

        static void Alike((double First, double Second) v)
        {
            Assert.Equal(double.IsNaN(v.First), double.IsNaN(v.Second));
            if (!double.IsNaN(v.First)) Assert.Equal(v.First, v.Second, 1e-9 * (1 + Math.Abs(v.First)));
        }
    }

    [Fact]
    public void Build_SolidCells_AreNaNAndOthersAreNot()
    {
        var plan = Hall(6, 4) with { Obstacles = [Shelf("G1", 2, 1, 4, 2)] };
        var field = Map(plan, Survey(At(1, 1, 5)));
        for (var i = 0; i < field.Grid.Count; i++)
        {
            var p = field.Grid.CentreOf(i);
            var solid = p.X is > 2 and < 4 && p.Y is > 1 and < 2;
            Assert.Equal(solid, double.IsNaN(field.MeanPpm[i]));
            Assert.Equal(solid, double.IsNaN(field.DeviationPpm[i]));
            Assert.Equal(solid, double.IsNaN(field.Exceedance[i]));
        }
    }

    // Far from walls the field is simple kriging with the Matérn model ν = 1 (closed form x K1(x)): mean and variance of the level.
    [Theory]
    [InlineData(0.25, 0.075)] // grid error: 5 % of the spread, 2 % on cells half as wide
    [InlineData(0.125, 0.03)]
    public void Build_OpenHall_IsSimpleKrigingWithTheMaternModel(double cell, double tolerance)
    {
        const double Range = 3, Spread = 1.5;
        double Centre(double v) => (Math.Floor(v / cell) + 0.5) * cell;
        (double X, double Y, double Net)[] data =
            [.. new[] { (10.1, 10.1, 20), (11.1, 10.6, 6), (9.4, 11.1, 2), (10.9, 8.6, 0.5) }.Select(d => (Centre(d.Item1), Centre(d.Item2), d.Item3))];
        var settings = new FieldSettings { Estimate = false, RangeMetres = Range, Spread = Spread, Turbulence = 0.1, BaseLevel = -0.5, CellMetres = cell };
        var field = Map(Hall(20, 20), Survey([.. data.Select(d => At(d.X, d.Y, d.Net))]), settings);
        var sites = data.Select(d => FieldReadings.Site(At(d.X, d.Y, d.Net), 0, 1)).ToArray();
        double Covariance(double ax, double ay, double bx, double by) =>
            Spread * Spread * Matern.Correlation(double.Hypot(ax - bx, ay - by), Range);
        var k = new double[4, 4];
        for (var i = 0; i < 4; i++)
        {
            for (var j = 0; j < 4; j++) k[i, j] = Covariance(data[i].X, data[i].Y, data[j].X, data[j].Y) + (i == j ? sites[i].Variance(0.1) : 0);
        }

        var (inverse, _) = DenseOracle.Invert(k);
        foreach (var (px, py) in new[] { (10.1, 10.1), (10.6, 10.4), (9.9, 9.6), (12.1, 10.1), (10.1, 13.1) })
        {
            var (x, y) = (Centre(px), Centre(py));
            var to = data.Select(d => Covariance(x, y, d.X, d.Y)).ToArray();
            var weights = DenseOracle.Times(inverse, to);
            var mean = -0.5 + weights.Zip(sites).Sum(p => p.First * (p.Second.Level + 0.5));
            var deviation = Math.Sqrt((Spread * Spread) - weights.Zip(to).Sum(p => p.First * p.Second));
            Assert.Equal(mean, field.Fit!.Level[Cell(field, x, y)], tolerance);
            Assert.Equal(deviation, field.Fit.LevelDeviation[Cell(field, x, y)], tolerance);
        }
    }

    // Check 30: the Gaussian covariance of walk-around distances on four points round a gondola (0, 1, 2; range 4) has an eigenvalue of
    // -0.100025, so it is no covariance; ours round a gondola is one, since it is the inverse of a precision.
    [Fact]
    public void Prior_RoundAGondola_IsPositiveDefiniteWhereWalkAroundDistancesAreNot()
    {
        var distances = new double[4, 4];
        for (var i = 0; i < 4; i++)
        {
            for (var j = 0; j < 4; j++)
            {
                var around = Math.Min((i - j + 4) % 4, (j - i + 4) % 4);
                distances[i, j] = Math.Exp(-around * around / 16.0);
            }
        }

        Assert.Equal(-0.100025, DenseOracle.Eigenvalues(distances)[0], 1e-6);

        var plan = Hall(8, 8) with { Obstacles = [Shelf("G1", 2, 2, 6, 6)] };
        var grid = StoreMap.Air.AirGrid.Build(plan, 0.5);
        var sites = new List<FieldSite>();
        foreach (var (x, y) in new[] { (1.0, 1.0), (4.0, 1.0), (7.0, 1.0), (7.0, 4.0), (7.0, 7.0), (4.0, 7.0), (1.0, 7.0), (1.0, 4.0) })
            sites.Add(new FieldSite(grid.CellAt(new(x, y)), 0, 1, 0, ReadingBound.Exact));
        foreach (var range in new[] { 1.0, 4.0, 9.0 })
        {
            var prior = ObservedPrior.Of(FieldBody.Of(grid, sites, range)[0].Factor(range));
            var correlation = new double[8, 8];
            for (var i = 0; i < 64; i++) correlation[i / 8, i % 8] = prior.Correlation[i];
            Assert.True(DenseOracle.Eigenvalues(correlation)[0] > 1e-4);
        }
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Build_MirroredOrTurnedPlan_GivesTheMirroredOrTurnedField(bool mirrored)
    {
        var plan = Hall(10, 6) with
        {
            Rooms = [Room("R1", Box(6, 0, 10, 3.1), new PlanSegment(new(6, 1), new(6, 1.9)))],
            Obstacles = [Shelf("G1", 1, 2.6, 4, 3.1)],
            Fixtures = [Case("C1", 2, 5, 4, 6, "L1"), Case("C2", 4, 5, 6, 6, "L1")],
        };
        Func<PlanPoint, PlanPoint> move = mirrored ? p => new(10 - p.X, p.Y) : p => new(-p.Y, p.X);
        NetReading[] readings =
        [
            At(2.6, 5, 12, fixture: "C1"), At(3.6, 5, 3, fixture: "C1"), At(4.6, 5, 1, ReadingBound.Below, fixture: "C2"), At(7.1, 1.1, 2),
            At(2.1, 1.1, 1, ReadingBound.Below), At(8.6, 5.1, 60), At(8.6, 3.6, 1000, ReadingBound.AtLeast),
        ];
        var moved = readings.Select(r => r with { Reading = r.Reading with { Place = r.Reading.Place with { At = move(r.Reading.Place.At) } } });
        var a = Map(plan, Survey(readings));
        var b = Map(Moved(plan, move, mirrored), Survey([.. moved]));
        for (var i = 0; i < a.Grid.Count; i++)
        {
            var j = b.Grid.IndexOf(move(a.Grid.CentreOf(i)));
            if (double.IsNaN(a.MeanPpm[i]))
            {
                Assert.True(double.IsNaN(b.MeanPpm[j]));
                continue;
            }

            Assert.Equal(a.MeanPpm[i], b.MeanPpm[j], 1e-6 * (1 + Math.Abs(a.MeanPpm[i])));
            Assert.Equal(a.Exceedance[i], b.Exceedance[j], 1e-6);
            Assert.Equal(a.Evidence[i], b.Evidence[j]);
        }
    }

    [Fact]
    public void Build_Twice_SameBits()
    {
        var plan = Hall(12, 8) with { Obstacles = [Shelf("G1", 3, 3.5, 9, 4.5)] };
        var readings = Enumerable.Range(0, 30).Select(k => At(0.5 + (k * 7 % 11), 0.5 + (k * 5 % 3), k % 4 == 0 ? 5 + k : 1, k % 4 == 0 ? ReadingBound.Exact : ReadingBound.Below)).ToArray();
        var (a, b) = (Map(plan, Survey(readings)), Map(plan, Survey(readings)));
        Assert.Equal(a.MeanPpm, b.MeanPpm);
        Assert.Equal(a.DeviationPpm, b.DeviationPpm);
        Assert.Equal(a.Fit!.RangeMetres, b.Fit!.RangeMetres);
    }

    [Fact]
    public void Build_OverRange_IsAtLeastThat()
    {
        var field = Map(Hall(8, 6), Survey(At(4.1, 3.1, 1000, ReadingBound.AtLeast)));
        var cell = Cell(field, 4.1, 3.1);
        Assert.True(field.Fit!.QuantilePpm(cell, 0.1) > 800);
        Assert.True(field.Exceedance[cell] > 0.999);
    }

    [Fact]
    public void Build_BelowTheLimit_IsNotZeroButUnderIt()
    {
        var readings = Enumerable.Range(0, 14).Select(k => At(1.1 + (0.5 * k), 3.1, 1, ReadingBound.Below)).ToArray();
        var field = Map(Hall(9, 6), Survey(readings));
        var cell = Cell(field, 4.1, 3.1);
        Assert.InRange(field.MeanPpm[cell], 0, 1);
        Assert.True(field.DeviationPpm[cell] > 0.01);
        Assert.True(field.Exceedance[cell] < 0.1);
    }

    [Fact]
    public void Build_BarsAndBeepsAndSniffedJoints_AreNotMapped()
    {
        var clean = At(2.1, 3.1, 1, ReadingBound.Below);
        var beep = At(6.1, 3.1, 500) with { HitOnly = true };
        var joint = At(6.1, 2.1, 800);
        joint = joint with { Reading = joint.Reading with { Spot = Spot.Joint } };
        var field = Map(Hall(8, 6), Survey(clean, beep, joint));
        Assert.Equal(1, field.Fit!.Readings);
        Assert.False(field.Evidence[Cell(field, 6.1, 3.1)]);
    }

    [Fact]
    public void Build_FansOnAndOff_MapsOneStateOnly()
    {
        var off = At(6.1, 3.1, 90);
        off = off with { Reading = off.Reading with { Air = AirState.FansOff } };
        var both = Survey(At(2.1, 3.1, 5), off);
        Assert.False(Map(Hall(8, 6), both).Evidence[Cell(Map(Hall(8, 6), both), 6.1, 3.1)]);
        var field = Map(Hall(8, 6), both, new FieldSettings { Air = AirState.FansOff });
        Assert.True(field.MeanPpm[Cell(field, 6.1, 3.1)] > 60);
        Assert.True(Map(Hall(8, 6), Survey(off)).Evidence[Cell(field, 6.1, 3.1)]);
    }

    [Fact]
    public void Build_NoReadings_IsThePriorAndBlank()
    {
        var field = Map(Hall(8, 6), Survey());
        Assert.DoesNotContain(true, field.Evidence);
        Assert.Equal(2, field.ActionPpm);
    }

    [Fact]
    public void Build_Cancelled_Throws()
    {
        using var cancel = new CancellationTokenSource();
        cancel.Cancel();
        Assert.Throws<OperationCanceledException>(() => GasFieldBuilder.Build(Hall(8, 6), Survey(At(2, 2, 5)), cancel: cancel.Token));
    }
}
