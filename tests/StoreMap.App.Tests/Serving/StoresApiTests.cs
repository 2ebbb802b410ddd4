using System.IO.Compression;
using System.Net;
using System.Text.Json.Nodes;

namespace StoreMap.Tests.Serving;

public class StoresApiTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Layout_SavedAndRead_IsTheSameWithItsVersion()
    {
        await using var server = await TestServer.Start();
        Assert.Equal(HttpStatusCode.OK, (await server.PutDemo()).StatusCode);
        var read = await server.Client.GetAsync("/api/stores/tern-hollow/layout", Cancel);
        Assert.Equal("\"1\"", read.Headers.ETag!.Tag);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(TestServer.DemoLayout), JsonNode.Parse(await read.Content.ReadAsStringAsync(Cancel))));
        var stores = await server.Client.GetStringAsync("/api/stores", Cancel);
        Assert.Contains("Tern Hollow Market", stores, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Layout_SavedFromAnOlderVersion_IsRefusedAndNothingLost()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        Assert.Equal(HttpStatusCode.OK, (await server.PutDemo(madeFrom: "\"1\"", text: TestServer.DemoLayout.Replace("Bakery", "Bread", StringComparison.Ordinal))).StatusCode);
        var late = await server.PutDemo(madeFrom: "\"1\"", text: TestServer.DemoLayout.Replace("Bakery", "Mine", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.PreconditionFailed, late.StatusCode);
        Assert.Equal(2, (int)JsonNode.Parse(await late.Content.ReadAsStringAsync(Cancel))!["version"]!);
        Assert.Contains("Bread", await server.Client.GetStringAsync("/api/stores/tern-hollow/layout", Cancel), StringComparison.Ordinal);
        Assert.Contains("Bakery", await server.Client.GetStringAsync("/api/stores/tern-hollow/layout?version=1", Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Layout_Broken_IsRefusedWithEveryProblem()
    {
        await using var server = await TestServer.Start();
        var answer = await server.PutDemo(text: """{"format":"storemap-layout/1","id":"tern-hollow"}""");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var errors = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["errors"]!.AsArray();
        Assert.Contains(errors, e => (string?)e!["field"] == "outline");
        Assert.Contains(errors, e => (string?)e!["field"] == "units");
    }

    [Fact]
    public async Task Layout_UnderAnotherStoresName_IsRefused()
    {
        await using var server = await TestServer.Start();
        var answer = await server.Client.PutAsync("/api/stores/other/layout", TestServer.Json(TestServer.DemoLayout), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Fact]
    public async Task Export_Zip_HoldsLayoutAndJournal()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        await server.Client.PostAsync("/api/surveys/s1/events", Events.Batch("s1", Events.Reading("s1", "e1", "C1", 3, "7")), Cancel);
        using var zip = new ZipArchive(await server.Client.GetStreamAsync("/api/export.zip", Cancel), ZipArchiveMode.Read);
        Assert.Equal(
            ["tern-hollow/s1.journal.jsonl", "tern-hollow/s1.survey.json", "tern-hollow/tern-hollow.layout.json"],
            zip.Entries.Select(e => e.FullName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Backup_WhileServing_RestoresToTheSameContent()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        await server.Client.PostAsync("/api/surveys/s1/events", Events.Batch("s1", Events.Reading("s1", "e1", "C1", 3, "7")), Cancel);
        using var runner = new Runner();
        Assert.Equal(0, runner.Run("backup", "--data", server.Folder, "--out", runner.PathOf("copy.db")));
        Assert.Equal(0, runner.Run("restore", runner.PathOf("copy.db"), "--data", runner.PathOf("new")));
        Assert.Equal(0, runner.Run("export", "--data", runner.PathOf("new"), "--out", runner.PathOf("files")));
        var journal = File.ReadAllText(runner.PathOf("files/tern-hollow/s1.journal.jsonl"));
        Assert.Equal(Events.Reading("s1", "e1", "C1", 3, "7") + "\n", journal);
        Assert.Equal(1, runner.Run("restore", runner.Write("junk.db", "not a database"), "--data", runner.PathOf("new")));
        Assert.Equal(0, runner.Run("export", "--data", runner.PathOf("new"), "--out", runner.PathOf("again")));
    }

    [Fact]
    public async Task OpenApi_Description_NamesEveryResource()
    {
        await using var server = await TestServer.Start();
        var paths = JsonNode.Parse(await server.Client.GetStringAsync("/api/storemap.openapi.json", Cancel))!["paths"]!.AsObject().Select(p => p.Key).ToList();
        Assert.Contains("/api/stores/{store}/layout", paths);
        Assert.Contains("/api/surveys/{survey}/events", paths);
        Assert.Contains("/api/people/{name}", paths);
    }
}
