using StoreMap.Air;
using StoreMap.Plans;
using StoreMap.Tests.Oracles;
using static StoreMap.Tests.Air.AirPlans;

namespace StoreMap.Tests.Air;

public class GridOperatorTests
{
    // Steady one-dimensional dispersion with loss in a closed channel: c(x) = q / (2 √(D k)) Σ exp(-|x - x_image| / L), L = √(D/k),
    // images at ±x0 + 2 n W (analytic solution of D c'' = k c - q δ(x - x0), no flow at the ends).
    [Fact]
    public void Dispersion_Channel_AgreesWithTheAnalyticSolution()
    {
        const double Width = 12, Height = 1, D = 0.02, K = 0.01, X0 = 4.125;
        var op = GridOperator.Of(AirGrid.Build(Hall(Width, Height), 0.25), 0);
        var c = Response(op, D, K, cell => Math.Abs(op.Cells[cell] % 48 - 16) == 0);
        var length = Math.Sqrt(D / K);
        for (var column = 0; column < 48; column++)
        {
            var x = 0.125 + (0.25 * column);
            var sum = 0.0;
            for (var n = -5; n <= 5; n++)
                sum += Math.Exp(-Math.Abs(x - X0 - (2 * n * Width)) / length) + Math.Exp(-Math.Abs(x + X0 - (2 * n * Width)) / length);
            // Four cells of 0.25 m across, each with a unit source: 4 per metre of the channel's width of 1 m.
            var expected = 4 * sum / (2 * Math.Sqrt(D * K));
            Assert.Equal(expected, c[column], 0.005 * expected); // grid error h²/(24 L²) on the slope and the peak
        }
    }

    [Fact]
    public void Dispersion_UnitSources_AreReciprocalLinearAndConserved()
    {
        var plan = Store();
        var grid = AirGrid.Build(plan, 0.25);
        var op = GridOperator.Of(grid, grid.ComponentOf[grid.CellAt(new(1, 1))]);
        var loss = op.PerCell([.. grid.Regions.Select((r, i) => r.Kind == AirRegionKind.Case ? 0.008 : 0.001)]);
        var spread = op.PerCell([.. grid.Regions.Select((r, i) => r.Kind == AirRegionKind.Case ? 0.01 : 0.05)]);
        var m = op.Dispersion(loss, spread);
        var factor = SparseCholesky.Factor(m, Supernodes.Of(m, op.OrderFor(m)));
        var (a, b) = (op.LocalOf(grid.CellAt(new(3, 3), "C1")), op.LocalOf(grid.CellAt(new(7, 1.2))));
        var (fromA, fromB) = (Unit(factor, op.Count, a), Unit(factor, op.Count, b));
        Assert.Equal(fromA[b], fromB[a], 1e-12 * fromA[a]);
        Assert.Equal(1, fromA.Select((c, i) => c * loss[i] * 0.0625).Sum(), 1e-9);
        Assert.True(fromA.Min() >= 0);
        var both = new double[op.Count];
        (both[a], both[b]) = (2, 3);
        var sum = factor.Solve(both);
        for (var i = 0; i < op.Count; i++) Assert.Equal((2 * fromA[i]) + (3 * fromB[i]), sum[i], 1e-9);
    }

    [Fact]
    public void Dispersion_MirroredAndTurnedPlans_GiveTheMirroredAndTurnedAnswer()
    {
        var plan = Store();
        var straight = Responses(plan, new(3.1, 3), "C1", [new(1.1, 1.1), new(7.1, 1.2), new(4.1, 2.9)]);
        Func<PlanPoint, PlanPoint> mirror = p => new(-p.X, p.Y);
        Func<PlanPoint, PlanPoint> turn = p => new(-p.Y, p.X);
        foreach (var (move, mirrored) in new[] { (mirror, true), (turn, false) })
        {
            var moved = Responses(
                Moved(plan, move, mirrored), move(new(3.1, 3)), "C1", [move(new(1.1, 1.1)), move(new(7.1, 1.2)), move(new(4.1, 2.9))]);
            for (var i = 0; i < straight.Length; i++) Assert.Equal(straight[i], moved[i], 1e-9 * straight.Max());
        }
    }

    // Doorways down to a slit of 0.1 m, on and off the grid's lines, against a plain solve on cells of 0.05 and 0.025 m.
    [Theory]
    [InlineData(1.5, 2.5)]
    [InlineData(1.7, 2.15)]
    [InlineData(1.9, 2.0)]
    [InlineData(0.0, 0.9)]
    public void Dispersion_NarrowOpening_AgreesWithAFineGrid(double from, double to)
    {
        var plan = Hall(6, 4) with { Rooms = [Room("R1", Box(0, 0, 3, 4), new PlanSegment(new(3, from), new(3, to)))] };
        var fine = FineDiffusion.LostBehindWall(6, 4, 3, from, to, 0.5, 0.02, 0.002);
        Assert.Equal(fine, Through(plan, 0.25), 0.02 * fine);
        Assert.Equal(fine, Through(plan, 0.5), 0.05 * fine);
    }

    // Check 28: the stencil of the Matérn precision on the lattice, from Lindgren, Rue and Lindström 2011: with a = 4 + κ²,
    // a² + 4 in the centre, -2a beside it, 2 diagonally, 1 two cells away (unit cells, up to a factor).
    [Fact]
    public void Precision_InsideTheGrid_HasTheMaternStencil()
    {
        const double Range = 2, H = 0.25;
        var op = GridOperator.Of(AirGrid.Build(Hall(5, 5), H), 0);
        var q = Matrices.Dense(op.Precision(Constant(op.Count, Range)));
        var kappa2 = 8 / (Range * Range) * H * H;
        var a = 4 + kappa2;
        var centre = op.LocalOf((10 * 20) + 10);
        var unit = q[centre, centre + 2];
        Assert.Equal((a * a) + 4, q[centre, centre] / unit, 1e-9);
        Assert.Equal(-2 * a, q[centre, centre + 1] / unit, 1e-9);
        Assert.Equal(2, q[centre, centre + 21] / unit, 1e-9);
        Assert.Equal(0, q[centre, centre + 3]);
    }

    // Check 29: r = 2 m, h = 0.2 m, 45 x 45 cells: variance in the centre 1.0390, correlation at 2 m 0.1346 (computed independently
    // with the same form; closed form 1 and 0.1397, 4 % of grid error is normal).
    [Fact]
    public void Precision_CheckGrid_HasTheKnownVarianceAndCorrelation()
    {
        var op = GridOperator.Of(AirGrid.Build(Hall(9, 9), 0.2), 0);
        var q = op.Precision(Constant(op.Count, 2));
        var factor = SparseCholesky.Factor(q, Supernodes.Of(q, op.OrderFor(q)));
        var variances = SelectedInverse.Diagonal(factor);
        var centre = (22 * 45) + 22;
        var covariances = Unit(factor, op.Count, centre);
        Assert.Equal(1.0390, variances[centre], 5e-4);
        Assert.Equal(0.1346, covariances[centre + 10] / Math.Sqrt(variances[centre] * variances[centre + 10]), 5e-4);
    }

    private static double Through(Plan plan, double cell)
    {
        var grid = AirGrid.Build(plan, cell);
        var op = GridOperator.Of(grid, 0);
        var m = op.Dispersion(Constant(op.Count, 0.002), Constant(op.Count, 0.02));
        var source = new double[op.Count];
        for (var i = 0; i < op.Count; i++) source[i] = grid.CentreOf(op.Cells[i]).X < 0.5 ? cell * cell : 0;
        var c = SparseCholesky.Factor(m, Supernodes.Of(m, op.OrderFor(m))).Solve(source);
        // All that is lost beyond the wall came through the doorway.
        return c.Select((value, i) => grid.CentreOf(op.Cells[i]).X > 3 ? value * 0.002 * cell * cell : 0).Sum();
    }

    private static double[] Responses(Plan plan, PlanPoint source, string fixture, PlanPoint[] at)
    {
        var grid = AirGrid.Build(plan, 0.25);
        var from = grid.CellAt(source, fixture);
        var op = GridOperator.Of(grid, grid.ComponentOf[from]);
        var m = op.Dispersion(Constant(op.Count, 0.004), Constant(op.Count, 0.02));
        var c = Unit(SparseCholesky.Factor(m, Supernodes.Of(m, op.OrderFor(m))), op.Count, op.LocalOf(from));
        return [.. at.Select(p => c[op.LocalOf(grid.CellAt(p))])];
    }

    private static Plan Store() => Hall(8, 6) with
    {
        Rooms = [Room("R1", Box(5, 0, 8, 2.6), new PlanSegment(new(5, 1), new(5, 1.9)))],
        Obstacles = [Shelf("G1", 1, 1.6, 4, 2.1)],
        Fixtures = [Case("C1", 2, 3, 4, 4, "L1"), Case("C2", 4, 3, 6, 4, "L1")],
    };

    private static double[] Response(GridOperator op, double d, double k, Func<int, bool> source)
    {
        var m = op.Dispersion(Constant(op.Count, k), Constant(op.Count, d));
        return SparseCholesky.Factor(m, Supernodes.Of(m, op.OrderFor(m)))
            .Solve([.. Enumerable.Range(0, op.Count).Select(i => source(i) ? 1.0 : 0)]);
    }

    private static double[] Unit(SparseCholesky factor, int n, int at)
    {
        var b = new double[n];
        b[at] = 1;
        return factor.Solve(b);
    }

    private static double[] Constant(int n, double value)
    {
        var array = new double[n];
        Array.Fill(array, value);
        return array;
    }
}
