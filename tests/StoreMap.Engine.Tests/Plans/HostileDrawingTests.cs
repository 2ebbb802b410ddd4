using StoreMap.Plans;

namespace StoreMap.Tests.Plans;

/// <summary>Malformed and hostile drawings: what a safe reader does with each is in Cases/hostile/expected.json.</summary>
public sealed class HostileDrawingTests
{
    [Fact]
    public void Truncated_KeepsWhatIsCompleteAndSaysSo()
    {
        var (drawing, problems) = Dxf("01_truncated.dxf");
        Assert.NotEmpty(drawing.Shapes);
        Assert.Contains(problems.All, p => p.Rule is "dxf-cut" or "dxf-group");
    }

    [Fact]
    public void BinaryRubbish_IsRefused() => Assert.Equal("dxf-text", Assert.Single(Assert.Throws<RefusedInputException>(() => Dxf("02_binary_rubbish.dxf")).Problems).Rule);

    [Fact]
    public void HugeCoordinates_AreLeftOutAndTold()
    {
        var (drawing, problems) = Dxf("03_huge_coordinates.dxf");
        Assert.Equal([10.0, 10.0], drawing.Shapes.Select(s => s.Length));
        Assert.Equal(3, problems.All.Count);
    }

    [Fact]
    public void NotANumber_IsLeftOutAndTold()
    {
        var (drawing, problems) = Dxf("04_nan_text.dxf");
        Assert.Equal([new PlanPoint(1, 2), new PlanPoint(3, 4)], Assert.Single(drawing.Shapes).Points);
        Assert.Equal(6, problems.All.Count(p => p.Rule == "dxf-number"));
    }

    [Fact]
    public void CyclicBlocks_EndAndAreReported()
    {
        var (drawing, problems) = Dxf("05_cyclic_blocks.dxf");
        Assert.Contains(drawing.Shapes, s => s.Source == "model" && s.Length == 5);
        Assert.Equal("dxf-cycle", Assert.Single(problems.All).Rule);
    }

    [Fact]
    public void ExponentialBlocks_AreRefusedAtALimit() => Assert.Equal("dxf-too-much", Assert.Single(Assert.Throws<RefusedInputException>(() => Dxf("06_exponential_blocks.dxf")).Problems).Rule);

    [Fact]
    public void ScriptAndEntities_AreRefused()
    {
        using var stream = File.OpenRead(CaseFiles.PathOf("hostile/12_script_external_entity.svg"));
        var refused = Assert.Throws<RefusedInputException>(() => DrawingImport.ReadSvg(stream, "plan.svg", new DrawingOptions { Units = LengthUnit.Foot }));
        Assert.Equal("svg-dtd", Assert.Single(refused.Problems).Rule);
    }

    /// <summary>The same picture without its declaration: nothing of it but the rectangle is a shape.</summary>
    [Fact]
    public void ScriptWithoutEntities_GivesTheRectangleAlone()
    {
        var text = CaseFiles.Text("hostile/12_script_external_entity.svg");
        text = text[..text.IndexOf("<!DOCTYPE", StringComparison.Ordinal)] + text[text.IndexOf("<svg", StringComparison.Ordinal)..].Replace("&x;&e7;", "", StringComparison.Ordinal);
        using var stream = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(text));
        var drawing = SvgReader.Read(stream, null, LengthUnit.Metre, 1, new ProblemList(null));
        Assert.Equal(1000, Math.Abs(Rings.SignedArea(Assert.Single(drawing.Shapes).Points)), 9);
    }

    private static (Drawing Drawing, ProblemList Problems) Dxf(string name)
    {
        var problems = new ProblemList(name);
        return (DxfReader.Read(File.ReadAllBytes(CaseFiles.PathOf("hostile/" + name)), name, null, problems), problems);
    }
}
