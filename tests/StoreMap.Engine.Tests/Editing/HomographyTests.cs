using CsCheck;
using StoreMap.Editing;

namespace StoreMap.Tests.Editing;

/// <summary>Pictures of plans taken askew. A pinhole camera's picture of a plane is a perspective map of it, and such a map keeps the
/// cross-ratio of four points in a line (Hartley and Zisserman, Multiple View Geometry, 2nd edition, sections 2.3 and 2.5).</summary>
public class HomographyTests
{
    private static readonly (double X, double Y)[] Floor = [(0, 0), (220, 0), (220, 180), (0, 180)];

    // A camera over the plan: turned, tilted, off to the side.
    private static readonly Gen<Func<double, double, (double X, double Y)>> Camera =
        Gen.Select(Gen.Double[-3, 3], Gen.Double[-0.6, 0.6], Gen.Double[-60, 60], Gen.Double[300, 600], (turn, tilt, aside, away) => (Func<double, double, (double, double)>)((x, y) =>
        {
            var (u, v) = ((x - 110 + aside), y - 90);
            (u, v) = ((u * Math.Cos(turn)) - (v * Math.Sin(turn)), (u * Math.Sin(turn)) + (v * Math.Cos(turn)));
            var (w, depth) = (v * Math.Cos(tilt), away + (v * Math.Sin(tilt)));
            return (1500 + (2000 * u / depth), 1000 + (2000 * w / depth));
        }));

    [Fact]
    public void Map_OfACamerasPicture_PutsEveryPointOfThePlanBack() => Gen.Select(Camera, Gen.Double[0, 220], Gen.Double[0, 180]).SampleAgain(
        taken =>
        {
            var (camera, x, y) = taken;
            var map = Homography.Of([.. Floor.Select(p => camera(p.X, p.Y))], Floor)!;
            var seen = camera(x, y);
            var (backX, backY) = map.Map(seen.X, seen.Y);
            Assert.Equal(x, backX, 1e-6);
            Assert.Equal(y, backY, 1e-6);
        },
        iter: 200);

    [Fact]
    public void Map_OfFourPointsInALine_KeepsTheirCrossRatio() => Camera.SampleAgain(
        camera =>
        {
            var map = Homography.Of(Floor, [.. Floor.Select(p => camera(p.X, p.Y))])!;
            double[] along = [0.1, 0.35, 0.6, 0.95];
            var seen = along.Select(t => map.Map(20 + (150 * t), 170 - (120 * t))).ToList();
            double Between(int i, int j) => double.Hypot(seen[i].X - seen[j].X, seen[i].Y - seen[j].Y);
            Assert.Equal(
                (along[2] - along[0]) * (along[3] - along[1]) / ((along[2] - along[1]) * (along[3] - along[0])),
                Between(0, 2) * Between(1, 3) / (Between(1, 2) * Between(0, 3)), 1e-9);
        },
        iter: 100);

    [Fact]
    public void Of_ThreePointsInALineOrCrossedOrDented_IsNone()
    {
        Assert.Null(Homography.Of([(0, 0), (5, 0), (10, 0), (0, 10)], Floor));
        Assert.Null(Homography.Of([(0, 0), (10, 0), (0, 10), (10, 10)], Floor));
        Assert.Null(Homography.Of([(0, 0), (10, 0), (4, 4), (0, 10)], Floor));
    }
}
