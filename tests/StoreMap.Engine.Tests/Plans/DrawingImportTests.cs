using System.Text;
using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>From a drawing to a layout that passes the checks, on the drawings of Cases/dxf (ezdxf 0.18.1) and a small SVG of our own.</summary>
public sealed class DrawingImportTests
{
    private const string Store = """
        <svg xmlns="http://www.w3.org/2000/svg">
          <g id="outline"><rect x="0" y="0" width="100" height="60"/></g>
          <g id="open-cases"><rect x="10" y="1" width="24" height="3"/><text x="12" y="3">27A</text></g>
          <g id="walk-ins"><rect x="80" y="0" width="20" height="14"/></g>
          <g id="shelving"><rect x="20" y="20" width="30" height="4"/><rect x="20" y="200" width="30" height="4"/></g>
          <g id="drops"><circle cx="12" cy="2" r="0.3"/><line x1="11" y1="2" x2="13" y2="2"/><circle cx="12" cy="2" r="0.1"/></g>
          <g id="sketch"><rect x="60" y="30" width="3" height="3"/></g>
        </svg>
        """;

    [Theory]
    [InlineData("a")]
    [InlineData("b")]
    [InlineData("c")]
    public void Dxf_OfTheReference_BecomesItsStore(string name)
    {
        using var stream = File.OpenRead(CaseFiles.PathOf($"dxf/plan_dxf_{name}.dxf"));
        var plan = DrawingImport.ReadDxf(stream, name + ".dxf").Plan;
        Assert.Equal(2, plan.Fixtures.Count(f => f.Kind == FixtureKind.WalkIn));
        Assert.Equal(7, plan.Obstacles.Count(o => o.Kind == "shelving"));
        Assert.Equal(12, plan.Drops.Count);
        Assert.Single(plan.Pipes);
        // Both faces of the outer walls are drawn; a walk-in stands in their thickness, so the outer face, the reference's first shape, is the outline.
        using var truth = System.Text.Json.JsonDocument.Parse(CaseFiles.Text($"dxf/plan_dxf_{name}.json"));
        var outer = truth.RootElement.GetProperty("entities")[0].GetProperty("area_m2").GetDouble();
        Assert.InRange(Rings.SignedArea(plan.Outline) / outer, 1 - 1e-3, 1 + 1e-3);
    }

    [Fact]
    public void WallsWithBothFaces_GiveTheInnerOne()
    {
        var svg = """<svg xmlns="http://www.w3.org/2000/svg"><g id="walls"><rect width="30" height="20"/><rect x="0.3" y="0.3" width="29.4" height="19.4"/></g></svg>""";
        Assert.Equal(29.4 * 19.4, Rings.SignedArea(Svg(svg, new DrawingOptions { Units = LengthUnit.Metre }).Plan.Outline), 6);
    }

    [Fact]
    public void Svg_Store_HasItsParts()
    {
        var document = Svg(Store, new DrawingOptions { Units = LengthUnit.Foot });
        var plan = document.Plan;
        var open = Assert.Single(plan.Fixtures, f => f.Kind == FixtureKind.OpenCase);
        Assert.Equal("27A", open.Tag);
        Assert.Equal(24 * LengthUnits.MetresPerFoot, open.Front!.Length, 3);
        // The side away from the wall has more room before it: y runs down in the picture, so it is the lower side.
        Assert.All(open.Front.Points, p => Assert.Equal(-4 * LengthUnits.MetresPerFoot, p.Y, 3));
        Assert.Single(plan.Fixtures, f => f.Kind == FixtureKind.WalkIn);
        Assert.Single(plan.Obstacles);
        Assert.Single(plan.Drops);
        Assert.Contains(document.Warnings, w => w.Rule == "drawing-layer" && w.Element == "sketch");
        Assert.Contains(document.Warnings, w => w.Rule == "drawing-outside");
    }

    [Fact]
    public void Roles_Said_GoBeforeWords()
    {
        var roles = new Dictionary<string, DrawingRole> { ["sketch"] = DrawingRole.Column, ["shelving"] = DrawingRole.Ignore };
        var plan = Svg(Store, new DrawingOptions { Units = LengthUnit.Foot, Roles = roles }).Plan;
        Assert.Equal("column", Assert.Single(plan.Obstacles).Kind);
    }

    [Fact]
    public void OuterWallsAsSingleLines_AreJoined()
    {
        var svg = """<svg xmlns="http://www.w3.org/2000/svg"><g id="walls"><path d="M0 0H30"/><path d="M30 0V20"/><path d="M30 20H0.005"/><path d="M0 20V0"/><path d="M10 0V12"/></g></svg>""";
        var plan = Svg(svg, new DrawingOptions { Units = LengthUnit.Metre }).Plan;
        Assert.Equal(600, Rings.SignedArea(plan.Outline), 0);
        Assert.Equal("wall", Assert.Single(plan.Obstacles).Kind);
    }

    [Fact]
    public void NoWalls_AreAskedForWithTheLayers()
    {
        var refused = Assert.Throws<RefusedInputException>(() => Svg("""<svg xmlns="http://www.w3.org/2000/svg"><g id="lines"><rect width="3" height="3"/></g></svg>""", new DrawingOptions { Units = LengthUnit.Metre }));
        Assert.Contains("lines", Assert.Single(refused.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Svg_WithoutUnit_IsAsked() =>
        Assert.Equal("svg-units", Assert.Single(Assert.Throws<RefusedInputException>(() => Svg(Store, new DrawingOptions())).Problems).Rule);

    private static LayoutDocument Svg(string text, DrawingOptions options)
    {
        using var stream = new MemoryStream(Encoding.UTF8.GetBytes(text));
        return DrawingImport.ReadSvg(stream, "plan.svg", options);
    }
}
