namespace StoreMap.Tests;

/// <summary><c>import</c> end to end: drawings and lists, and what is refused.</summary>
public sealed class ImportTests : IDisposable
{
    private readonly Runner run = new();

    public void Dispose() => run.Dispose();

    [Fact]
    public void Drawing_BecomesALayoutThatCanBeWalked()
    {
        var layout = run.PathOf("store.layout.json");
        Assert.Equal(0, run.Run("import", Cases("dxf", "plan_dxf_b.dxf"), "--out", layout));
        Assert.Equal(0, run.Run("route", layout, "--effort", "100", "--json"));
        Assert.Contains("\"C1", run.Out);
    }

    [Theory]
    [InlineData("hostile", "02_binary_rubbish.dxf")]
    [InlineData("hostile", "03_huge_coordinates.dxf")]
    [InlineData("hostile", "04_nan_text.dxf")]
    [InlineData("hostile", "05_cyclic_blocks.dxf")]
    [InlineData("hostile", "06_exponential_blocks.dxf")]
    [InlineData("hostile", "12_script_external_entity.svg")]
    public void HostileDrawing_IsRefusedAndNothingWritten(string folder, string name)
    {
        Assert.Equal(1, run.Run("import", Cases(folder, name), "--units", "m", "--out", run.PathOf("store.layout.json")));
        Assert.Contains("error: ", run.Error);
        Assert.DoesNotContain("   at ", run.Error);
        Assert.Empty(run.Files());
    }

    /// <summary>A layout is completed by hand after the import: it is written over only when that is asked for.</summary>
    [Fact]
    public void LayoutThatExists_IsKeptUnlessReplaceIsAsked()
    {
        var layout = run.PathOf("store.layout.json");
        File.WriteAllText(layout, "completed by hand");
        Assert.Equal(1, run.Run("import", Cases("dxf", "plan_dxf_b.dxf"), "--out", layout));
        Assert.Contains("--replace", run.Error);
        Assert.Equal("completed by hand", File.ReadAllText(layout));
        Assert.Equal(0, run.Run("import", Cases("dxf", "plan_dxf_b.dxf"), "--out", layout, "--replace"));
        Assert.NotEqual("completed by hand", File.ReadAllText(layout));
    }

    [Fact]
    public void UnknownRole_IsWrongUsage()
    {
        Assert.Equal(2, run.Run("import", Cases("dxf", "plan_dxf_b.dxf"), "--layers", "WALLS=roof", "--out", run.PathOf("store.layout.json")));
        Assert.Contains("open-case", run.Error);
    }

    private static string Cases(string folder, string name) => Path.Combine(Runner.Root, "tests", "StoreMap.Engine.Tests", "Cases", folder, name);
}
