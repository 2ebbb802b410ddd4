using System.Net;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using StoreMap.App.Serving;

namespace StoreMap.Tests.Serving;

public class RequestLogTests
{
    [Fact]
    public async Task Requests_AreLoggedByTheirPattern_WithoutNamesPlacesOrPassphrases()
    {
        var folder = Path.Combine(Path.GetTempPath(), "storemap-log-" + Path.GetRandomFileName());
        try
        {
            await using (var server = await TestServer.Start(proxyHost: "maps.example", folder: Path.Combine(folder, "data")))
            {
                server.People.Set("Quillfeather", "office", "nine brown herons wading");
                await server.Client.PostAsync("/api/session", TestServer.Json("""{"name":"Quillfeather","passphrase":"not the right one at all"}"""), TestContext.Current.CancellationToken);
                Assert.Equal(HttpStatusCode.Unauthorized, (await server.PutDemo()).StatusCode);
                File.Copy(Directory.GetFiles(Path.Combine(folder, "data", "logs")).Single(), Path.Combine(folder, "copy"));
            }

            var text = await File.ReadAllTextAsync(Path.Combine(folder, "copy"), TestContext.Current.CancellationToken);
            var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => JsonDocument.Parse(l).RootElement).ToList();
            Assert.Equal(["/api/session", "/api/stores/{store}/layout"], lines.Select(l => l.GetProperty("Pattern").GetString()!));
            Assert.All(lines, l => Assert.Equal(401, l.GetProperty("Status").GetInt32()));
            foreach (var secret in new[] { "Quillfeather", "herons", "not the right one", "tern-hollow", "Tern Hollow" }) Assert.DoesNotContain(secret, text, StringComparison.OrdinalIgnoreCase);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>Stopping a report is ordinary use: it was an error with a stack.</summary>
    [Fact]
    public async Task Request_TheClientStopped_IsA499AndNoFailure()
    {
        var folder = Path.Combine(Path.GetTempPath(), "storemap-log-" + Path.GetRandomFileName());
        try
        {
            using var stopped = new CancellationTokenSource();
            var context = new DefaultHttpContext { RequestAborted = stopped.Token };
            context.Request.Path = "/api/stores";
            using (var log = RequestLog.Files(folder))
            {
                await stopped.CancelAsync();
                await Assert.ThrowsAsync<OperationCanceledException>(() => new RequestLog(_ => throw new OperationCanceledException(stopped.Token), log).InvokeAsync(context));
            }

            var line = JsonDocument.Parse(await File.ReadAllTextAsync(Directory.GetFiles(folder).Single(), TestContext.Current.CancellationToken)).RootElement;
            Assert.Equal(499, line.GetProperty("Status").GetInt32());
            Assert.True(line.GetProperty("Milliseconds").GetDouble() >= 0);
            Assert.False(line.TryGetProperty("@l", out _), "it is not plain information");
            Assert.False(line.TryGetProperty("Trace", out _), "it has a stack");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void Files_OverTheirSize_AreRolledAndTheOldestGo()
    {
        var folder = Path.Combine(Path.GetTempPath(), "storemap-log-" + Path.GetRandomFileName());
        try
        {
            using (var log = RequestLog.Files(folder, mostBytes: 2000, mostFiles: 3))
            {
                for (var i = 0; i < 200; i++) RequestLog.Write(log, "GET", "/api/stores", 200, i);
            }

            var files = Directory.GetFiles(folder);
            Assert.Equal(3, files.Length);
            Assert.All(files, f => Assert.InRange(new FileInfo(f).Length, 1, 2500));
            Assert.Contains(files, f => File.ReadAllText(f).Contains("\"Milliseconds\":199", StringComparison.Ordinal));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
