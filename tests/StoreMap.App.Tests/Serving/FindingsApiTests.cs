using System.IO.Compression;
using System.Net;
using System.Text.Json.Nodes;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.Tests.Serving;

public class FindingsApiTests
{
    private static readonly Plan Demo = LayoutDocument.Parse(TestServer.DemoLayout).Plan;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Events_SentTwice_AreThereOnceWithWhoAndWhen()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        var text = Note("n1", "F1", FindingStatus.Open, "<img src=x onerror=alert(1)>");
        foreach (var _ in (int[])[1, 2]) Assert.Equal("n1", (string)(await Answer(server, text))["kept"]!.AsArray().Single()!);
        Assert.Equal("n1", (string)(await Answer(server, Note("n1", "F1", FindingStatus.Isolated)))["different"]!.AsArray().Single()!);
        var answer = await server.Client.GetAsync("/api/stores/tern-hollow/findings", Cancel);
        Assert.Equal("application/json", answer.Content.Headers.ContentType!.MediaType);
        var body = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.DoesNotContain("<img", body, StringComparison.Ordinal);
        var row = JsonNode.Parse(body)!.AsArray().Single()!;
        Assert.Equal(("this machine", text), ((string)row["sender"]!, (string)row["document"]!));
        Assert.Equal(server.Clock.Now, (DateTimeOffset)row["at"]!, TimeSpan.FromMilliseconds(1));
        Assert.Equal("[]", await server.Client.GetStringAsync($"/api/stores/tern-hollow/findings?after={row["received"]}", Cancel));
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("{}")]
    [InlineData("""{"v":1,"id":"e9","survey":"another-store","device":"d","number":1,"time":"2026-08-04T04:00:00.000-05:00","kind":"service","body":{}}""")]
    public async Task Events_OneUnreadable_NothingOfTheBatchIsTaken(string bad)
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        Assert.Equal(HttpStatusCode.BadRequest, (await Post(server, Note("n1", "F1", FindingStatus.Open), bad)).StatusCode);
        Assert.Equal("[]", await server.Client.GetStringAsync("/api/stores/tern-hollow/findings", Cancel));
    }

    /// <summary>What a device wrote is kept letter for letter; what the record can't use of it is left out.</summary>
    [Theory]
    [InlineData("""{"entry":"x"}""")]
    [InlineData("""{"entry":[1]}""")]
    [InlineData("""{"entry":{"finding":7},"movement":3}""")]
    public async Task Events_WithABodyOfAnotherForm_AreKeptAndTheRecordDoesWithout(string body)
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        var odd = JournalEvent.Parse(Note("n1", "F1", FindingStatus.Open))! with { Body = System.Text.Json.Nodes.JsonNode.Parse(body)!.AsObject() };
        Assert.Equal(HttpStatusCode.OK, (await Post(server, odd.Write())).StatusCode);
        Assert.Empty(ServiceRecordFile.Parse(await server.Client.GetStringAsync("/api/stores/tern-hollow/service.json", Cancel), null, Demo).Record.Entries);
    }

    [Fact]
    public async Task Events_OfAStoreNotHereYet_AskForTheLayoutFirst()
    {
        await using var server = await TestServer.Start();
        Assert.Equal(HttpStatusCode.NotFound, (await Post(server, Note("n1", "F1", FindingStatus.Open))).StatusCode);
    }

    [Fact]
    public async Task Record_OfAConfirmedPanelAndItsRepair_IsAFileThatTheCommandLineReads()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        var look = new JournalEvent
        {
            Id = "p1", Survey = "s1", Device = "d1", Number = 1, Time = Events.Start.AddHours(1), Kind = JournalKinds.Panel,
            Body = new JsonObject { ["panel"] = "C7/2", ["leak"] = true, ["component"] = "coil return bend" },
        };
        await server.Client.PostAsync("/api/surveys/s1/events", Events.Batch("s1", look.Write()), Cancel);
        await Post(server, Note("n1", "C7/2 2026-08-04", FindingStatus.Repaired, "bend brazed", "C7"));
        using var zip = new ZipArchive(await server.Client.GetStreamAsync("/api/export.zip", Cancel));
        var file = Path.Combine(server.Folder, "record.service.json");
        await zip.GetEntry("tern-hollow/tern-hollow.service.json")!.ExtractToFileAsync(file, Cancel);
        Assert.Equal(await File.ReadAllTextAsync(file, Cancel), await server.Client.GetStringAsync("/api/stores/tern-hollow/service.json", Cancel));
        var finding = ServiceFinding.Of(ServiceRecordFile.Parse(await File.ReadAllTextAsync(file, Cancel), null, Demo).Record).Single();
        Assert.Equal(("coil return bend", "bend brazed", "repaired 2026-08-05, not yet verified"), (finding.Entry.Component, finding.Entry.Repair, finding.InWords()));
        using var runner = new Runner();
        Assert.Equal(0, runner.Run("check", Runner.Demo("tern-hollow.layout.json"), file));
        await using var trail = await zip.GetEntry("tern-hollow/tern-hollow.findings.jsonl")!.OpenAsync(Cancel);
        Assert.Equal("this machine", (string)(await JsonNode.ParseAsync(trail, cancellationToken: Cancel))!["sender"]!);
    }

    private static async Task<JsonNode> Answer(TestServer server, params string[] events) => JsonNode.Parse(await (await Post(server, events)).Content.ReadAsStringAsync(Cancel))!;

    private static string Note(string id, string finding, FindingStatus status, string? repair = null, string fixture = "C2") => new JournalEvent
    {
        Id = id, Survey = "tern-hollow", Device = "d1", Number = 1, Time = Events.Start.AddDays(1), Kind = JournalKinds.Service,
        Body = ServiceJournal.Body(Demo, new ServiceEntry { Finding = finding, Date = new DateOnly(2026, 8, 5), Fixture = fixture, Status = status, Repair = repair }, null, []),
    }.Write();

    private static Task<HttpResponseMessage> Post(TestServer server, params string[] events) => server.Client.PostAsync(
        "/api/stores/tern-hollow/findings", TestServer.Json(new JsonObject { ["events"] = new JsonArray([.. events.Select(e => (JsonNode)e)]) }.ToJsonString()), Cancel);
}
