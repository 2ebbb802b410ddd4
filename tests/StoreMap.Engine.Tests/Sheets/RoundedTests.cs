using CsCheck;
using StoreMap.Sheets;

namespace StoreMap.Tests.Sheets;

public class RoundedTests
{
    /// <summary>Cutting corners at the quarters ends in parabolas that touch the sides at their middles (Chaikin 1974; Riesenfeld 1975). A parabola leaves
    /// a third of its corner's triangle outside (Archimedes), 1/24 of the square; each of n cuts brings the area four times nearer to that.</summary>
    [Fact]
    public void Ring_SquareOfSteps_HasTheAreaOfItsParabolas() =>
        Assert.Equal(16 * ((5.0 / 6) + (Math.Pow(4, -3) / 6)), Area(Rounded.Ring([new(0, 0), new(4, 0), new(4, 4), new(0, 4)], 4)), 1e-9);

    [Fact]
    public void Ring_CornersBetweenLongEdges_Stay()
    {
        SheetPoint[] room = [new(0, 0), new(9, 0), new(9, 5), new(4, 5), new(4, 12), new(0, 12)];
        Assert.Equal(room, Rounded.Ring(room, 3));
    }

    /// <summary>A round patch traced along cells: the ring runs nearer to the circle than the stairs do.</summary>
    [Fact]
    public void Ring_DiscOfCells_IsRounder()
    {
        const double Radius = 5.3;
        SheetPoint[] quarter = [new(0.5, 5.5), new(2.5, 5.5), new(2.5, 4.5), new(3.5, 4.5), new(3.5, 3.5), new(4.5, 3.5), new(4.5, 2.5), new(5.5, 2.5), new(5.5, 0.5)];
        SheetPoint[] stairs = [.. Enumerable.Range(0, 4).SelectMany(k => quarter.Reverse().Select(p => Turned(p, k)))];
        var round = Rounded.Ring(stairs, 3.5);
        double Off(IEnumerable<SheetPoint> ring) => ring.Max(p => Math.Abs(p.DistanceTo(new(0, 0)) - Radius));
        Assert.True(Off(round) < Off(stairs), $"{Off(round)} against {Off(stairs)}");
    }

    [Fact]
    public void Ring_OfAnyStairs_StaysWithinHalfAStepOfThem() =>
        Gen.Double[0.2, 6].Array[2, 20].Select(Gen.Double[1, 4]).Sample((steps, step) =>
        {
            // A flight of stairs up from the origin, closed by two long edges.
            List<SheetPoint> ring = [new(0, 0)];
            foreach (var (size, i) in steps.Select((s, i) => (s, i))) ring.Add(ring[^1] + (i % 2 == 0 ? new SheetPoint(size, 0) : new SheetPoint(0, size)));
            ring.AddRange([ring[^1] + new SheetPoint(0, 30), new(0, ring[^1].Y + 30)]);
            return Rounded.Ring(ring, step).All(p => Enumerable.Range(0, ring.Count).Min(i => Away(p, ring[i], ring[(i + 1) % ring.Count])) <= (step / 2) + 1e-9);
        });

    private static SheetPoint Turned(SheetPoint p, int quarters) => quarters == 0 ? p : Turned(new(-p.Y, p.X), quarters - 1);

    private static double Area(IReadOnlyList<SheetPoint> ring) =>
        Math.Abs(ring.Select((p, i) => (p.X * ring[(i + 1) % ring.Count].Y) - (ring[(i + 1) % ring.Count].X * p.Y)).Sum()) / 2;

    private static double Away(SheetPoint p, SheetPoint a, SheetPoint b)
    {
        var d = b - a;
        var along = Math.Clamp((((p.X - a.X) * d.X) + ((p.Y - a.Y) * d.Y)) / ((d.X * d.X) + (d.Y * d.Y)), 0, 1);
        return p.DistanceTo(a + (d * along));
    }
}
