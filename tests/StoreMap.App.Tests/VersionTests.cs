using System.Text.Json;

namespace StoreMap.Tests;

public sealed class VersionTests : IDisposable
{
    private readonly Runner runner = new();

    public void Dispose() => runner.Dispose();

    [Fact]
    public void Version_SaysWhatIsInstalledAndWhichDataFoldersItReads()
    {
        Assert.Equal(0, runner.Run("version"));
        Assert.StartsWith("StoreMap 0.1.0", runner.Out, StringComparison.Ordinal);
        Assert.Contains(StoreMap.Data.StoreDatabase.NewestMigration, runner.Out, StringComparison.Ordinal);
        Assert.Equal(0, runner.Run("version", "--json"));
        using var document = JsonDocument.Parse(runner.Out);
        Assert.Equal("0.1.0", document.RootElement.GetProperty("version").GetString());
    }
}
