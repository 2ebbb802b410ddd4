using System.Text.Json;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>The DXF reader against ezdxf 0.18.1 on three drawings (Cases/dxf/README.md).</summary>
public sealed class DxfReaderTests
{
    // Fine enough that lengths of small circles come within 1e-4 of the exact curves.
    private const double Fine = 1e-6;

    [Theory]
    [InlineData("a", LengthUnit.Inch)]
    [InlineData("b", LengthUnit.Millimetre)]
    [InlineData("c", LengthUnit.Metre)]
    public void Read_Drawing_GivesTheReferencesShapes(string name, LengthUnit unit)
    {
        var (drawing, problems) = Read(name);
        using var truth = Truth(name);
        var expected = truth.RootElement.GetProperty("entities").EnumerateArray().ToList();
        Assert.Equal(unit, drawing.Unit);
        Assert.Empty(problems.All);
        Assert.Equal(expected.Count, drawing.Shapes.Count);
        Assert.Equal(expected.Select(Kind).Order(StringComparer.Ordinal), drawing.Shapes.Select(Kind).Order(StringComparer.Ordinal));
        foreach (var (shape, entity) in drawing.Shapes.Zip(expected))
        {
            Assert.Equal(Kind(entity), Kind(shape));
            Assert.InRange(shape.Length / entity.GetProperty("length_m").GetDouble(), 1 - 1e-4, 1 + 1e-4);
            var points = entity.GetProperty("points").EnumerateArray().Select(Point).ToList();
            // The reference rounds flattened points to 0.1 µm, after inches of limited digits.
            Assert.InRange(shape.Points[0].DistanceTo(points[0]), 0, 1e-6);
            if (!shape.Closed) Assert.InRange(shape.Points[^1].DistanceTo(points[^1]), 0, 1e-6);
            if (shape.Closed) Assert.InRange(Math.Abs(Rings.SignedArea(shape.Points)) / entity.GetProperty("area_m2").GetDouble(), 1 - 1e-4, 1 + 1e-4);
        }
    }

    [Theory]
    [InlineData("a")]
    [InlineData("b")]
    [InlineData("c")]
    public void Read_Drawing_CoversTheReferencesBox(string name)
    {
        using var truth = Truth(name);
        var box = truth.RootElement.GetProperty("bbox_m").EnumerateArray().Select(v => v.GetDouble()).ToList();
        var (low, high) = Rings.Box([.. Read(name).Drawing.Shapes.SelectMany(s => s.Points)]);
        Assert.Equal(box, [low.X, low.Y, high.X, high.Y], (a, b) => Math.Abs(a - b) < 1e-5);
    }

    [Theory]
    [InlineData("a")]
    [InlineData("b")]
    [InlineData("c")]
    public void Read_Texts_ArePlainAndInPlace(string name)
    {
        using var truth = Truth(name);
        var expected = truth.RootElement.GetProperty("labels").EnumerateArray().ToList();
        var labels = Read(name).Drawing.Labels;
        Assert.Equal(expected.Select(l => l.GetProperty("plain").GetString()), labels.Select(l => l.Text));
        Assert.All(expected.Zip(labels), pair =>
            Assert.InRange(pair.Second.At.DistanceTo(new PlanPoint(pair.First.GetProperty("x_m").GetDouble(), pair.First.GetProperty("y_m").GetDouble())), 0, 1e-6));
    }

    [Fact]
    public void Read_WithAUnitGiven_TakesItOverTheFiles()
    {
        var problems = new ProblemList(null);
        var asFeet = DxfReader.Read(File.ReadAllBytes(CaseFiles.PathOf("dxf/plan_dxf_c.dxf")), null, LengthUnit.Foot, problems);
        var asWritten = Read("c").Drawing;
        Assert.Equal(asWritten.Shapes[0].Points[1].X * LengthUnits.MetresPerFoot, asFeet.Shapes[0].Points[1].X, 9);
    }

    [Fact]
    public void Read_WithoutUnit_AsksForOne()
    {
        var text = CaseFiles.Text("dxf/plan_dxf_c.dxf").Replace("$INSUNITS", "$OTHER", StringComparison.Ordinal);
        var refused = Assert.Throws<RefusedInputException>(() => DxfReader.Read(System.Text.Encoding.UTF8.GetBytes(text), null, null, new ProblemList(null)));
        Assert.Equal("dxf-units", Assert.Single(refused.Problems).Rule);
    }

    /// <summary>Extrusion (0, 0, -1) mirrors x: the arbitrary axis rule of the DXF reference (from memory).</summary>
    [Fact]
    public void Read_CircleSeenFromBelow_IsMirrored()
    {
        var drawing = DxfReader.Read(Minimal("0\nCIRCLE\n8\nW\n10\n3\n20\n2\n40\n1\n210\n0\n220\n0\n230\n-1\n"), null, null, new ProblemList(null), Fine);
        var (low, high) = Rings.Box(Assert.Single(drawing.Shapes).Points);
        Assert.Equal(-3, (low.X + high.X) / 2, 5);
        Assert.Equal(2, (low.Y + high.Y) / 2, 5);
    }

    [Fact]
    public void Read_FrozenLayer_IsLeftOut()
    {
        var tables = "0\nSECTION\n2\nTABLES\n0\nTABLE\n2\nLAYER\n0\nLAYER\n2\nOLD\n70\n1\n62\n7\n0\nENDTAB\n0\nENDSEC\n";
        var drawing = DxfReader.Read(Minimal("0\nLINE\n8\nOLD\n10\n0\n20\n0\n11\n1\n21\n0\n0\nLINE\n8\nNEW\n10\n0\n20\n0\n11\n2\n21\n0\n", tables), null, null, new ProblemList(null));
        Assert.Equal("NEW", Assert.Single(drawing.Shapes).Layer);
    }

    [Fact]
    public void Read_EllipseOfKnownAxes_HasItsArea()
    {
        var drawing = DxfReader.Read(Minimal("0\nELLIPSE\n8\nW\n10\n1\n20\n1\n11\n2\n21\n0\n40\n0.5\n41\n0\n42\n6.283185307179586\n"), null, null, new ProblemList(null), Fine);
        var shape = Assert.Single(drawing.Shapes);
        Assert.True(shape.Closed);
        Assert.InRange(Rings.SignedArea(shape.Points) / (Math.PI * 2 * 1), 1 - 1e-4, 1 + 1e-4);
    }

    private static byte[] Minimal(string entities, string tables = "") => System.Text.Encoding.ASCII.GetBytes(
        "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n6\n0\nENDSEC\n" + tables + "0\nSECTION\n2\nENTITIES\n" + entities + "0\nENDSEC\n0\nEOF\n");

    private static (Drawing Drawing, ProblemList Problems) Read(string name)
    {
        var problems = new ProblemList(null);
        return (DxfReader.Read(File.ReadAllBytes(CaseFiles.PathOf($"dxf/plan_dxf_{name}.dxf")), null, null, problems, Fine), problems);
    }

    private static JsonDocument Truth(string name) => JsonDocument.Parse(CaseFiles.Text($"dxf/plan_dxf_{name}.json"));

    private static string Kind(JsonElement entity) =>
        $"{entity.GetProperty("type").GetString()} {entity.GetProperty("layer").GetString()} {entity.GetProperty("source").GetString()} {entity.GetProperty("closed").GetBoolean()}";

    private static string Kind(DrawnShape shape) => $"{shape.Type} {shape.Layer} {shape.Source} {shape.Closed}";

    private static PlanPoint Point(JsonElement p) => new(p[0].GetDouble(), p[1].GetDouble());
}
