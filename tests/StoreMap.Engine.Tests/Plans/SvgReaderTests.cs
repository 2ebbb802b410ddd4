using System.Text;
using CsCheck;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>The SVG reader against closed formulas of geometry and the rules of SVG 1.1 (W3C, 2011).</summary>
public sealed class SvgReaderTests
{
    /// <summary>Two half-circle arcs make a circle: SVG 1.1, 8.3.8; circumference 2 π r.</summary>
    [Theory]
    [InlineData("M 10 0 A 10 10 0 0 1 -10 0 A 10 10 0 0 1 10 0 Z")]
    [InlineData("M10,0a10,10,0,0,0-20,0a10,10,0,1,0,20,0z")]
    public void Path_OfTwoArcs_IsACircle(string data)
    {
        var (closed, points) = Assert.Single(SvgPath.Read(data, 1e-6)!);
        Assert.True(closed);
        Assert.InRange(Rings.Perimeter(points) / (20 * Math.PI), 1 - 1e-4, 1 + 1e-4);
        Assert.All(points, p => Assert.Equal(10, double.Hypot(p.X, p.Y), 9));
    }

    /// <summary>Radii too small are enlarged just enough (SVG 1.1, F.6.6).</summary>
    [Fact]
    public void Path_ArcTooSmallForItsEnds_IsEnlarged()
    {
        var (_, points) = Assert.Single(SvgPath.Read("M0 0A1 1 0 0 1 10 0", 1e-6)!);
        Assert.All(points, p => Assert.Equal(5, double.Hypot(p.X - 5, p.Y), 6));
    }

    /// <summary>The four sweep and size flags give four arcs of one ellipse (the figure of SVG 1.1, 8.3.8): two small, two large.</summary>
    [Theory]
    [InlineData("0 0", false)]
    [InlineData("0 1", false)]
    [InlineData("1 0", true)]
    [InlineData("1 1", true)]
    public void Path_ArcFlags_ChooseTheArc(string flags, bool large)
    {
        var (_, points) = Assert.Single(SvgPath.Read($"M125 75A100 50 0 {flags} 225 125", 1e-4)!);
        var length = points.Zip(points.Skip(1), (a, b) => a.DistanceTo(b)).Sum();
        Assert.Equal(large, length > 242);
        Assert.Equal(new PlanPoint(225, 125), points[^1]);
        // Turning: flag 1 sweeps with the angle growing, which in these axes is counter-clockwise.
        var chord = points[^1] - points[0];
        Assert.Equal(flags[^1] == '1', chord.Cross(points[points.Count / 2] - points[0]) < 0);
    }

    /// <summary>A quadratic curve is the cubic with its control points at two thirds (degree elevation).</summary>
    [Fact]
    public void Path_QuadraticAsCubic_IsTheSameCurve()
    {
        var quadratic = Assert.Single(SvgPath.Read("M0 0Q30 60 90 0", 1)!).Points;
        var cubic = Assert.Single(SvgPath.Read("M0 0C20 40 50 40 90 0", 1)!).Points;
        Assert.Equal(cubic.Count, quadratic.Count);
        Assert.All(cubic.Zip(quadratic), pair => Assert.InRange(pair.First.DistanceTo(pair.Second), 0, 1e-9));
    }

    [Theory]
    [InlineData("M0 0h10v5h-10z", 50)]
    [InlineData("M0 0 10 0 10 5 0 5z", 50)]
    [InlineData("m0 0 10 0 0 5-10 0z", 50)]
    [InlineData("M0,0H1e1V.5e1H0Z", 50)]
    public void Path_Rectangles_HaveTheirArea(string data, double area) =>
        Assert.Equal(area, Math.Abs(Rings.SignedArea(Assert.Single(SvgPath.Read(data, 1)!).Points)), 9);

    [Theory]
    [InlineData("L1 1")]
    [InlineData("M0 0L1")]
    [InlineData("M0 0L1 x")]
    [InlineData("M0 0A1 1 0 0 1 5")]
    public void Path_Malformed_IsNone(string data) => Assert.Null(SvgPath.Read(data, 1));

    /// <summary>Transforms apply from right to left (SVG 1.1, 7.5); rotation is positive from +x to +y.</summary>
    [Fact]
    public void Transform_List_AppliesRightToLeft()
    {
        var map = SvgTransforms.Read("translate(50,90) rotate(-45) translate(130,160)")!.Value;
        // SVG 1.1, 7.5: the combined matrix [.707 -.707 .707 .707 255.03 111.21].
        Assert.Equal([0.7071, -0.7071, 0.7071, 0.7071, 255.06, 111.21], [map.A, map.B, map.C, map.D, map.E, map.F], (a, b) => Math.Abs(a - b) < 0.05);
    }

    [Fact]
    public void Rotation_AboutAPoint_KeepsIt() => Gen.Select(Gen.Double[-100, 100], Gen.Double[-100, 100], Gen.Double[-360, 360]).Sample((x, y, degrees) =>
    {
        var map = SvgTransforms.Read(FormattableString.Invariant($"rotate({degrees} {x} {y})"))!.Value;
        Assert.InRange(map.Of(new PlanPoint(x, y)).DistanceTo(new PlanPoint(x, y)), 0, 1e-9);
    }, seed: "0001jR0z0000", iter: 100);

    [Fact]
    public void Groups_GiveLayersAndScale()
    {
        var svg = """<svg xmlns="http://www.w3.org/2000/svg"><g id="walls" transform="scale(2)"><rect x="1" y="1" width="10" height="5"/></g><g id="cases"><circle r="1" cx="4" cy="4"/></g></svg>""";
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(svg));
        var drawing = SvgReader.Read(stream, null, LengthUnit.Foot, 0.5, new ProblemList(null));
        Assert.Equal(["walls", "cases"], drawing.Shapes.Select(s => s.Layer));
        Assert.Equal(200 * 0.25 * LengthUnits.MetresPerFoot * LengthUnits.MetresPerFoot, Math.Abs(Rings.SignedArea(drawing.Shapes[0].Points)), 9);
        Assert.All(drawing.Shapes[0].Points, p => Assert.True(p.Y < 0));
    }
}
