using System.Globalization;
using System.Text.Json;
using CsCheck;
using StoreMap.Fields;
using StoreMap.Plans;

namespace StoreMap.Tests.Fields;

public class IsolinesTests
{
    /// <summary>Relative; the reference is exact for linear interpolation where no square is ambiguous.</summary>
    private const double Tolerance = 1e-6;

    internal static (FieldGrid Grid, double[] Values) Reference()
    {
        var rows = CaseFiles.Lines("contours/field_a_grid.csv");
        var values = rows.SelectMany(r => r.Split(',')).Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray();
        return (new FieldGrid(new PlanPoint(0, 0), 0.5, 120, 80), values);
    }

    internal static JsonElement.ArrayEnumerator ReferenceLevels() =>
        JsonDocument.Parse(CaseFiles.Text("contours/field_a_contours.json")).RootElement.GetProperty("levels").EnumerateArray();

    [Fact]
    public void Trace_ReferenceField_HasTheLibrarysLengthsAndLines()
    {
        var (grid, values) = Reference();
        foreach (var level in ReferenceLevels())
        {
            Assert.Equal(0, level.GetProperty("saddle_cells").GetInt32());
            var lines = Isolines.Trace(grid, values, [level.GetProperty("level").GetDouble()]);
            Close(level.GetProperty("length_m").GetDouble(), lines.Sum(l => l.Length));
            Close(level.GetProperty("closed_length_m").GetDouble(), lines.Where(l => l.Closed).Sum(l => l.Length));
            Assert.Equal(level.GetProperty("lines").GetInt32(), lines.Count);
            Assert.Equal(level.GetProperty("closed_lines").GetInt32(), lines.Count(l => l.Closed));
            Assert.All(lines, l => Assert.Equal(l.Closed, l.Points[0] == l.Points[^1]));
            var loops = lines.Where(l => l.Closed).Select(l => Math.Abs(Ring.SignedArea([.. l.Points.Skip(1)])));
            Close(level.GetProperty("largest_closed_loop_area_m2").GetDouble(), loops.DefaultIfEmpty(0).Max());
        }
    }

    [Theory]
    [InlineData(3, 2, 2, 3, 2.4, 2)] // high corners lower left and upper right, mean 2.5 above the level: joined
    [InlineData(3, 2, 2, 3, 2.6, 2)]
    public void Trace_Saddle_IsDecidedByTheMeanOfFourCorners(double ll, double lr, double ul, double ur, double level, int lines)
    {
        var traced = Isolines.Trace(new FieldGrid(new PlanPoint(0, 0), 1, 2, 2), [ll, lr, ul, ur], [level]);
        Assert.Equal(lines, traced.Count);
        // Joined: lines cut off the low corners, so none comes near the high corner at the origin.
        var nearest = traced.SelectMany(l => l.Points.Zip(l.Points.Skip(1), (a, b) => new PlanSegment(a, b).Middle)).Min(p => p.X + p.Y);
        Assert.Equal(level < 2.5, nearest > 0.99);
    }

    [Fact]
    public void Trace_MissingNode_EndsLinesAtItsSquares()
    {
        double[] values = [0, 0, 0, 0, 1, double.NaN, 0, 0, 0];
        var line = Assert.Single(Isolines.Trace(new FieldGrid(new PlanPoint(0, 0), 1, 3, 3), values, [0.5]));
        Assert.False(line.Closed);
        Assert.All(line.Points, p => Assert.True(p.X <= 1));
        Assert.Equal(2 * Math.Sqrt(0.5), line.Length, 12);
    }

    [Fact]
    public void Trace_PlaneWithNodesOnTheLevel_GivesOneStraightLine()
    {
        double[] values = [0, 1, 2, 0, 1, 2, 0, 1, 2];
        var line = Assert.Single(Isolines.Trace(new FieldGrid(new PlanPoint(5, 5), 2, 3, 3), values, [1]));
        Assert.Equal(4, line.Length, 12);
        Assert.All(line.Points, p => Assert.Equal(7, p.X, 12));
    }

    [Fact]
    public void Trace_Evidence_StopsLinesAtTheBorderOfTheCellsThatCount()
    {
        var grid = new FieldGrid(new PlanPoint(0.5, 0.5), 1, 4, 4);
        var values = Enumerable.Range(0, 16).Select(i => (double)(i % 4)).ToArray();
        var counts = Enumerable.Range(0, 16).Select(i => i / 4 < 2).ToArray();
        var line = Assert.Single(Isolines.TraceCells(grid, values, counts, [1.25]));
        Assert.Equal(2, line.Length, 12);
        Assert.All(line.Points, p => Assert.Equal(1.75, p.X, 12));
    }

    [Fact]
    public void Trace_AnyField_PutsHigherValuesOnTheLeft() =>
        (from columns in Gen.Int[2, 7]
         from rows in Gen.Int[2, 7]
         from values in Gen.Double[0, 10].Array[columns * rows]
         select (new FieldGrid(new PlanPoint(0, 0), 1, columns, rows), values)).Sample(field =>
        {
            // A clockwise loop has its left outside: lower inside. Counter-clockwise: higher inside.
            var (grid, values) = field;
            foreach (var line in Isolines.Trace(grid, values, [5.0]).Where(l => l.Closed))
            {
                var ring = line.Points.Skip(1).ToList();
                var inside = Enumerable.Range(0, grid.Count).Where(i => Inside(ring, grid.CentreOf(i))).Select(i => values[i]).ToList();
                var turns = Ring.SignedArea(ring);
                if (inside.Count == 1) Assert.Equal(turns > 0, inside[0] >= 5);
            }
        });

    [Fact]
    public void Trace_WrongLength_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Isolines.Trace(new FieldGrid(new PlanPoint(0, 0), 1, 2, 2), [1, 2, 3], [1]));

    [Fact]
    public void Trace_LevelNotANumber_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Isolines.Trace(new FieldGrid(new PlanPoint(0, 0), 1, 2, 2), [1, 2, 3, 4], [double.NaN]));

    internal static bool Inside(IReadOnlyList<PlanPoint> ring, PlanPoint p)
    {
        var inside = false;
        for (int i = 0, j = ring.Count - 1; i < ring.Count; j = i++)
        {
            PlanPoint a = ring[i], b = ring[j];
            if (a.Y > p.Y != b.Y > p.Y && p.X < ((b.X - a.X) * (p.Y - a.Y) / (b.Y - a.Y)) + a.X) inside = !inside;
        }

        return inside;
    }

    private static void Close(double expected, double actual) =>
        Assert.True(Math.Abs(expected - actual) <= Tolerance * Math.Max(1e-3, expected), $"expected {expected}, got {actual}");
}
