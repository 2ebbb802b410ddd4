namespace StoreMap.Tests;

/// <summary>What sheets say of themselves comes from options of the verbs that draw.</summary>
public sealed class SheetOptionsTests : IDisposable
{
    private readonly Runner runner = new();

    private static string Layout => Runner.Demo("tern-hollow.layout.json");

    [Fact]
    public void Route_InGermanOnA2WithNameAndCompany_SaysSoOnTheSheet()
    {
        Assert.Equal(0, runner.Run("route", Layout, "--effort", "0", "--language", "de", "--paper", "A2", "--technician", "R. Alder", "--company", "Alder & Finch", "--out", runner.PathOf("walk")));
        var svg = File.ReadAllText(runner.PathOf(Path.Combine("walk", "walk.svg")));
        foreach (var text in new[] { "xml:lang=\"de\"", ">Laufblatt<", ">R. Alder<", ">Alder &amp; Finch<", ">A2 · de<" }) Assert.Contains(text, svg);
    }

    [Fact]
    public void Route_MarkWithAScript_IsRefusedAndNothingIsWritten()
    {
        var mark = runner.Write("mark.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"><script>1</script></svg>");
        Assert.Equal(1, runner.Run("route", Layout, "--effort", "0", "--logo", mark, "--out", runner.PathOf("walk")));
        Assert.Contains("script", runner.Error);
        Assert.False(Directory.Exists(runner.PathOf("walk")));
    }

    [Theory]
    [InlineData("--language", "xx")]
    [InlineData("--paper", "A9")]
    [InlineData("--parts", "3")]
    public void Route_UnknownChoice_IsWrongUsage(string option, string value) => Assert.Equal(2, runner.Run("route", Layout, option, value));

    public void Dispose() => runner.Dispose();
}
