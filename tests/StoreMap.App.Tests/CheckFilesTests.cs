using System.Text.Json;

namespace StoreMap.Tests;

/// <summary><c>check</c> on every broken file of the engine's cases and on the hostile ones: exact errors, exit 1, no stack trace, nothing written.</summary>
public sealed class CheckFilesTests : IDisposable
{
    private readonly Runner run = new();

    public static TheoryData<string> BrokenLayouts =>
        [.. Directory.GetFiles(Cases("layouts", "broken"), "*.layout.json").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    public void Dispose() => run.Dispose();

    [Theory]
    [MemberData(nameof(BrokenLayouts))]
    public void BrokenLayout_IsRefusedWithEveryErrorAndItsPlace(string name)
    {
        Assert.Equal(1, run.Run("check", Cases("layouts", "broken", name)));
        Assert.Contains("error: ", run.Error);
        Assert.DoesNotContain("   at ", run.Error);
        Assert.DoesNotContain("Exception", run.Error);
        Assert.Empty(run.Files());
        Assert.Equal(1, run.Run("check", Cases("layouts", "broken", name), "--json"));
        using var json = JsonDocument.Parse(run.Out);
        Assert.All(json.RootElement.GetProperty("errors").EnumerateArray(), e => Assert.False(string.IsNullOrEmpty(e.GetProperty("rule").GetString())));
    }

    [Fact]
    public void ThereAreTwentyBrokenLayoutsOrMore() => Assert.True(BrokenLayouts.Count >= 20);

    [Fact]
    public void LogWithoutItsLayout_IsRefusedWithWhatToDo()
    {
        Assert.Equal(1, run.Run("check", Runner.Demo("2026-06-09.readings.csv")));
        Assert.Contains("Name the layout too", run.Error);
    }

    [Theory]
    [InlineData("09_missing_columns.csv")]
    public void HostileLog_IsRefused(string name)
    {
        Assert.Equal(1, run.Run("check", Runner.Demo("tern-hollow.layout.json"), Cases("hostile", name)));
        Assert.DoesNotContain("Exception", run.Error);
    }

    [Fact]
    public void BinaryRubbish_IsRefused()
    {
        var file = run.PathOf("rubbish.layout.json");
        File.WriteAllBytes(file, [.. Enumerable.Range(0, 4096).Select(i => (byte)(i * 37))]);
        Assert.Equal(1, run.Run("check", file));
        Assert.DoesNotContain("Exception", run.Error);
    }

    [Fact]
    public void DemoFiles_HaveNoError() => Assert.Equal(0, run.Run(
        "check", Runner.Demo("tern-hollow.layout.json"), Runner.Demo("2026-06-09.readings.csv"), Runner.Demo("2026-07-07.readings.csv"), Runner.Demo("tern-hollow.service.json")));

    private static string Cases(params string[] parts) => Path.Combine([Runner.Root, "tests", "StoreMap.Engine.Tests", "Cases", .. parts]);
}
