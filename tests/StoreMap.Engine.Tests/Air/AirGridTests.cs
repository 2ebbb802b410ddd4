using CsCheck;
using StoreMap.Air;
using StoreMap.Plans;
using static StoreMap.Tests.Air.AirPlans;

namespace StoreMap.Tests.Air;

public class AirGridTests
{
    [Fact]
    public void Build_Hall_OneOpenBodyOfAir()
    {
        var grid = AirGrid.Build(Hall(6, 4), 0.25);
        Assert.Equal((24, 16, 1), (grid.Columns, grid.Rows, grid.ComponentCount));
        Assert.All(grid.RegionOf, r => Assert.Equal(0, r));
        Assert.Equal(23 * 16, grid.Right.Sum());
        Assert.Equal(24 * 15, grid.Up.Sum());
        Assert.Equal(new PlanPoint(0.125, 0.125), grid.CentreOf(0));
    }

    // The wall runs between centres, through centres, and anywhere between.
    [Theory]
    [InlineData(3.0)]
    [InlineData(3.125)]
    [InlineData(3.1)]
    [InlineData(2.9999)]
    public void Build_RoomWithoutDoor_IsSealed(double wall)
    {
        var plan = Hall(6, 4) with { Rooms = [Room("R1", Box(0, 0, wall, 4))] };
        var grid = AirGrid.Build(plan, 0.25);
        Assert.Equal(2, grid.ComponentCount);
        Assert.NotEqual(Component(grid, 1, 2), Component(grid, 5, 2));
    }

    [Fact]
    public void Build_RandomClosedRings_NeverLeak() =>
        Gen.Select(Gen.Double[1.0, 2.2], Gen.Double[0, 6.28], Gen.Int[3, 9], Gen.Int[0, 8], Gen.Int[0, 8]).Sample((radius, turn, corners, dx, dy) =>
        {
            // Corners land on multiples of 1/8 m now and then, so walls pass exactly through centres and between them.
            var centre = new PlanPoint(4 + (dx / 8.0), 4 + (dy / 8.0));
            double Snapped(double v) => Math.Round(v * 8) / 8;
            PlanPoint[] ring =
            [
                .. Enumerable.Range(0, corners).Select(i => turn + (i * 2 * Math.PI / corners))
                    .Select(a => new PlanPoint(Snapped(centre.X + (radius * Math.Cos(a))), Snapped(centre.Y + (radius * Math.Sin(a))))),
            ];
            var grid = AirGrid.Build(Hall(8, 8) with { Rooms = [Room("R1", ring)] }, 0.25);
            for (var c = 0; c < grid.Count; c++)
            {
                var inside = grid.RegionOf[c] == 1;
                if (c % grid.Columns + 1 < grid.Columns && grid.RegionOf[c + 1] == 1 != inside) Assert.Equal(0, grid.Right[c]);
                if (c + grid.Columns < grid.Count && grid.RegionOf[c + grid.Columns] == 1 != inside) Assert.Equal(0, grid.Up[c]);
            }
        }, iter: 300, seed: "000000000001", threads: 1);

    // Free in the middle, more than free where air crowds round the jambs, closed beside it, and the same from either end.
    [Fact]
    public void Build_Doorway_IsOpenBetweenItsJambs()
    {
        var plan = Hall(6, 4) with { Rooms = [Room("R1", Box(0, 0, 3, 4), new PlanSegment(new(3, 1), new(3, 1.9)))] };
        var grid = AirGrid.Build(plan, 0.25);
        var faces = Enumerable.Range(0, grid.Rows).Select(r => grid.Right[(r * grid.Columns) + 11]).ToArray();
        Assert.All(faces[..4], f => Assert.Equal(0, f));
        Assert.All(faces[8..], f => Assert.Equal(0, f));
        Assert.Equal([1, 1], faces[5..7]);
        Assert.True(faces[4] > 1 && faces[7] < faces[4] && faces[7] > 0.1);
        var mirrored = AirGrid.Build(Moved(plan, p => new(p.X, 4 - p.Y), true), 0.25);
        Assert.Equal(faces.Reverse(), Enumerable.Range(0, grid.Rows).Select(r => mirrored.Right[(r * grid.Columns) + 11]));
    }

    [Fact]
    public void Build_SlantedDoorway_KeepsItsWidthInBothDirections()
    {
        var (a, b) = (new PlanPoint(1, 0), new PlanPoint(5, 4));
        var door = new PlanSegment(new(2.3, 1.3), new(3.3, 2.3));
        var plan = Hall(8, 4) with { Rooms = [Room("R1", [new(0, 0), a, b, new(0, 4)], door)] };
        var grid = AirGrid.Build(plan, 0.25);
        double across = 0, up = 0;
        for (var c = 0; c < grid.Count; c++)
        {
            if (c % grid.Columns + 1 < grid.Columns && grid.RegionOf[c] != grid.RegionOf[c + 1]) across += grid.Right[c] * 0.25;
            if (c + grid.Columns < grid.Count && grid.RegionOf[c] != grid.RegionOf[c + grid.Columns]) up += grid.Up[c] * 0.25;
        }

        Assert.Equal(1, across, 1e-6);
        Assert.Equal(1, up, 1e-6);
    }

    [Fact]
    public void Build_Case_OpensAcrossItsFrontOnly()
    {
        var plan = Hall(6, 4) with { Fixtures = [Case("C1", 1, 2, 4, 3)] };
        var grid = AirGrid.Build(plan, 0.25);
        Assert.Equal(12 * 4, grid.CellsOf(1).Length);
        for (var column = 4; column < 16; column++)
        {
            Assert.Equal(1, grid.Up[(7 * grid.Columns) + column]);
            Assert.Equal(0, grid.Up[(11 * grid.Columns) + column]);
        }

        Assert.Equal(0, grid.Right[(9 * grid.Columns) + 3]);
        Assert.Equal(0, grid.Right[(9 * grid.Columns) + 15]);
    }

    [Fact]
    public void Build_Island_OpensAcrossFrontAndBack()
    {
        var plan = Hall(6, 4) with { Fixtures = [Case("C1", 1, 1.5, 4, 2.5, kind: FixtureKind.IslandCase)] };
        var grid = AirGrid.Build(plan, 0.25, new AirSettings { FrontOpenness = 0.5 });
        Assert.Equal(0.5, grid.Up[(5 * grid.Columns) + 8]);
        Assert.Equal(0.5, grid.Up[(9 * grid.Columns) + 8]);
        Assert.Equal(0, grid.Right[(7 * grid.Columns) + 3]);
    }

    // Joined directly, and with an end panel of 3 inches between.
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.0762)]
    [InlineData(0.15)]
    public void Build_LineUp_PartlyOpenAcrossTheSharedEnd(double panel)
    {
        var plan = Hall(8, 4) with { Fixtures = [Case("C1", 1, 2, 4, 3, "L1"), Case("C2", 4 + panel, 2, 6, 3, "L1"), Case("C3", 6, 2, 7, 3, "L2")] };
        var grid = AirGrid.Build(plan, 0.25, new AirSettings { EndOpenness = 0.3, FrontOpenness = 0 });
        var row = 10 * grid.Columns;
        var ends = Enumerable.Range(0, grid.Columns - 1).Where(c => grid.RegionOf[row + c] == 1 && grid.RegionOf[row + c + 1] == 2).ToArray();
        Assert.Equal(0.3, grid.Right[row + Assert.Single(ends)]);
        Assert.Equal(0, grid.Right[row + 23]);
        Assert.Equal(grid.ComponentOf[grid.CellAt(new(2, 2), "C1")], grid.ComponentOf[grid.CellAt(new(5, 2), "C2")]);
        Assert.NotEqual(grid.ComponentOf[grid.CellAt(new(2, 2), "C1")], grid.ComponentOf[grid.CellAt(new(6.5, 2), "C3")]);
        Assert.NotEqual(grid.ComponentOf[grid.CellAt(new(2, 2), "C1")], Component(grid, 2, 1));
    }

    [Fact]
    public void Build_SectionEnds_HinderOnlyInsideTheCase()
    {
        var two = Case("C1", 1, 2, 5, 3) with { Sections = [new Section(1, 0, 2, 1, null), new Section(2, 2, 4, 1, null)] };
        var grid = AirGrid.Build(Hall(6, 4) with { Fixtures = [two] }, 0.25, new AirSettings { SectionOpenness = 0.4 });
        for (var row = 8; row < 12; row++) Assert.Equal(0.4, grid.Right[(row * grid.Columns) + 11]);
        Assert.Equal(1, grid.Right[(6 * grid.Columns) + 11]);
        Assert.Equal(1, grid.Right[(13 * grid.Columns) + 11]);
    }

    [Fact]
    public void Build_WalkIn_OpensAtItsDoorwayAlsoThroughTheRoomsWall()
    {
        var door = new PlanSegment(new(3, 1), new(3, 2));
        var plan = Hall(6, 4) with { Rooms = [Room("R1", Box(0, 0, 3, 4))], Fixtures = [WalkIn("W1", Box(1, 0, 3, 3), door)] };
        var grid = AirGrid.Build(plan, 0.25);
        Assert.Equal(1, grid.Right[(6 * grid.Columns) + 11]);
        Assert.Equal(0, grid.Right[(10 * grid.Columns) + 11]);
        Assert.Equal(Component(grid, 2, 1), Component(grid, 5, 2));
        Assert.NotEqual(Component(grid, 0.5, 3.5), Component(grid, 5, 2));
    }

    // A partition thinner than a cell still parts the air.
    [Fact]
    public void Build_ThinObstacle_IsAWall()
    {
        var plan = Hall(6, 4) with { Obstacles = [Shelf("G1", 3.01, 0, 3.06, 4)] };
        Assert.Equal(2, AirGrid.Build(plan, 0.25).ComponentCount);
    }

    [Fact]
    public void CellAt_PointBesideAWall_StaysOnItsSide()
    {
        var plan = Hall(6, 4) with { Rooms = [Room("R1", Box(0, 0, 3.1, 4))] };
        var grid = AirGrid.Build(plan, 0.25);
        Assert.Equal(1, grid.RegionOf[grid.CellAt(new(3.09, 2))]);
        Assert.Equal(0, grid.RegionOf[grid.CellAt(new(3.11, 2))]);
        Assert.Equal(1, grid.RegionOf[grid.CellAt(new(3.1, 2), room: "R1")]);
        Assert.Equal(-1, grid.CellAt(new(9, 2)));
    }

    [Fact]
    public void CellAt_Front_IsTheCasesOwnAir()
    {
        var grid = AirGrid.Build(Hall(6, 4) with { Fixtures = [Case("C1", 1, 2, 4, 3)] }, 0.25);
        Assert.Equal(1, grid.RegionOf[grid.CellAt(new(2.1, 2), "C1")]);
        Assert.Equal(0, grid.RegionOf[grid.CellAt(new(2.1, 1.9))]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0.009)]
    [InlineData(double.NaN)]
    [InlineData(6)]
    public void Build_CellOutsideItsRange_IsRefused(double cell) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => AirGrid.Build(Hall(6, 4), cell));

    private static int Component(AirGrid grid, double x, double y) => grid.ComponentOf[grid.CellAt(new(x, y))];
}
