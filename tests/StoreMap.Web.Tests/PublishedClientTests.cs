using System.Diagnostics;
using System.Security.Cryptography;
using System.Text.Json;

namespace StoreMap.Tests;

/// <summary>The client as it is handed out, trimmed and compressed.</summary>
public sealed class PublishedClientTests
{
    /// <summary>Most that a first visit may fetch, compressed.</summary>
    private const long MostBytes = 8_000_000;

    [Fact]
    public async Task Publish_HasEveryFileThatOfflineWorkNeeds_AndStaysSmall()
    {
        var folder = Path.Combine(Path.GetTempPath(), "storemap-published-" + Path.GetRandomFileName());
        try
        {
            var said = await Publish(folder);
            var client = Path.Combine(folder, "wwwroot");
            Assert.True(File.Exists(Path.Combine(client, "service-worker.js")), said);

            // The list that the service worker keeps by: "self.assetsManifest = {…};". Every file is there, and is the one listed.
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
        finally
        {
            if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<string> Publish(string folder)
    {
        string[] arguments = ["publish", Path.Combine(Checkout.Root, "src", "StoreMap.Web"), "-c", Checkout.Configuration, "--no-build", "-o", folder, "-nodeReuse:false"];
        using var process = Process.Start(new ProcessStartInfo("dotnet", arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var said = await Task.WhenAll(process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        await process.WaitForExitAsync();
        Assert.True(process.ExitCode == 0, string.Concat(said));
        return string.Concat(said);
    }
}
