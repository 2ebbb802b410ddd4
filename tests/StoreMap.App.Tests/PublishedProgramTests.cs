using System.Diagnostics;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text.Json;

namespace StoreMap.Tests;

/// <summary>The program as it is handed out: one file that needs nothing installed, and the client's pages beside it.</summary>
public sealed class PublishedProgramTests : IDisposable
{
    /// <summary>Most that a first visit of the client may fetch, compressed.</summary>
    private const long MostBytes = 8_000_000;

    private static readonly string Configuration = new DirectoryInfo(AppContext.BaseDirectory).Parent!.Name;

    private readonly string folder = Directory.CreateTempSubdirectory("storemap-handed-out-").FullName;

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [Fact]
    public async Task Publish_ForThisSystem_IsOneFileThatDrawsAndServes()
    {
        var to = Path.Combine(folder, "program");
        var said = await Run("dotnet", ["publish", Path.Combine(Runner.Root, "src", "StoreMap.App"), "-c", Configuration, "-r", RuntimeInformation.RuntimeIdentifier, "-o", to, "--artifacts-path", Path.Combine(folder, "build"), "-nodeReuse:false", "-p:RestoreLockedMode=true", "-p:RunAnalyzersDuringBuild=false"]);
        Assert.True(said.Code == 0, said.Text);
        Assert.Equal(["storemap", "storemap.staticwebassets.endpoints.json", "wwwroot"], Directory.GetFileSystemEntries(to).Select(e => Path.GetFileName(e).Replace(".exe", "", StringComparison.Ordinal)).Order(StringComparer.Ordinal));
        var program = Directory.GetFiles(to, "storemap*").Single(f => !f.EndsWith(".json", StringComparison.Ordinal));

        var version = await Run(program, ["version", "--json"]);
        Assert.Equal(0, version.Code);
        using var document = JsonDocument.Parse(version.Text);
        Assert.Equal(StoreMap.Data.StoreDatabase.NewestMigration, document.RootElement.GetProperty("database").GetString());

        // The native libraries that draw come along.
        var sheets = Path.Combine(folder, "sheets");
        var drawn = await Run(program, ["map", Runner.Demo("tern-hollow.layout.json"), Runner.Demo("2026-06-09.readings.csv"), "--out", sheets]);
        Assert.True(drawn.Code == 0, drawn.Text);
        Assert.True(new FileInfo(Path.Combine(sheets, "heat-map.png")).Length > 100_000);

        await IsWholeAndSmall(Path.Combine(to, "wwwroot"));
        await Serves(program);
    }

    // The list that the service worker keeps by: "self.assetsManifest = {…};". Every file is there, and is the one listed.
    private static async Task IsWholeAndSmall(string client)
    {
        Assert.True(File.Exists(Path.Combine(client, "service-worker.js")));
        var list = await File.ReadAllTextAsync(Path.Combine(client, "service-worker-assets.js"), TestContext.Current.CancellationToken);
        using var manifest = JsonDocument.Parse(list[list.IndexOf('{', StringComparison.Ordinal)..(list.LastIndexOf('}') + 1)]);
        var bytes = 0L;
        foreach (var asset in manifest.RootElement.GetProperty("assets").EnumerateArray())
        {
            var file = Path.Combine(client, asset.GetProperty("url").GetString()!);
            Assert.Equal(asset.GetProperty("hash").GetString(), "sha256-" + Convert.ToBase64String(SHA256.HashData(await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken))));
            bytes += new FileInfo(File.Exists(file + ".br") ? file + ".br" : file).Length;
        }

        TestContext.Current.TestOutputHelper?.WriteLine(FormattableString.Invariant($"A first visit fetches {bytes / 1e6:0.0} MB, compressed."));
        Assert.InRange(bytes, 1_000_000, MostBytes);
        Assert.DoesNotContain(Directory.EnumerateFiles(client, "*.pdb", SearchOption.AllDirectories), _ => true);
    }

    private async Task Serves(string program)
    {
        using var server = Start(program, ["serve", "--data", Path.Combine(folder, "data"), "--urls", "http://127.0.0.1:0", "--json"]);
        try
        {
            var said = JsonDocument.Parse(await ReadDocument(server.StandardOutput));
            using var client = new HttpClient { BaseAddress = new Uri(said.RootElement.GetProperty("url").GetString()!) };
            Assert.Contains("StoreMap", await client.GetStringAsync("/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
            Assert.Contains("assetsManifest", await client.GetStringAsync("/service-worker-assets.js", TestContext.Current.CancellationToken), StringComparison.Ordinal);
            Assert.Equal("[]", await client.GetStringAsync("/api/stores", TestContext.Current.CancellationToken));
        }
        finally
        {
            server.Kill();
            await server.WaitForExitAsync(TestContext.Current.CancellationToken);
        }
    }

    private static async Task<string> ReadDocument(StreamReader from)
    {
        var text = "";
        while (await from.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            text += line;
            if (line == "}" || (line.StartsWith('{') && line.EndsWith('}'))) break;
        }

        return text;
    }

    private async Task<(int Code, string Text)> Run(string program, string[] arguments)
    {
        using var process = Start(program, arguments);
        var said = await Task.WhenAll(process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await process.WaitForExitAsync();
        return (process.ExitCode, process.ExitCode == 0 ? said[0] : string.Concat(said));
    }

    private Process Start(string program, string[] arguments)
    {
        var info = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder };
        // Where the native libraries are unpacked.
        info.Environment["DOTNET_BUNDLE_EXTRACT_BASE_DIR"] = Path.Combine(folder, "unpacked");
        return Process.Start(info)!;
    }
}
