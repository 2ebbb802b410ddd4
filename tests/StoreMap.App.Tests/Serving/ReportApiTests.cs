using System.Net;
using System.Text.Json.Nodes;
using StoreMap.Surveys;
using UglyToad.PdfPig;

namespace StoreMap.Tests.Serving;

public class ReportApiTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("""{"surveys":[]}""", "Name 1 to")]
    [InlineData("""{"surveys":["s9"]}""", "Send it first")]
    [InlineData("""{"surveys":["s1"],"parts":["Poems"]}""", "parts is unknown")]
    [InlineData("""{"surveys":["s1"],"units":"furlong"}""", "Units are ft or m")]
    public async Task Report_OfAWishThatCannotBe_IsRefusedWithTheReason(string wish, string reason)
    {
        await using var server = await TestServer.WithSurvey();
        var answer = await server.Client.PostAsync("/api/stores/tern-hollow/report", TestServer.Json(wish), Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains(reason, await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        Assert.Empty(server.Errors);
    }

    [Fact]
    public async Task Report_InMetres_IsAPdf()
    {
        await using var server = await TestServer.WithSurvey();
        var answer = await server.Client.PostAsync("/api/stores/tern-hollow/report", TestServer.Json("""{"surveys":["s1"],"parts":["Manager"],"units":"m"}"""), Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("%PDF-"u8.ToArray(), (await answer.Content.ReadAsByteArrayAsync(Cancel))[..5]);
    }

    [Theory]
    [InlineData("en", "What this visit did not cover", "1A Fresh meat, 14'-0\" from the left end: customer in the way", "1A Fresh meat: fans off since 04:05, not put back; handed over at 04:50 to R. Ansel", "Note at 1A Fresh meat, 10'-0\" from the left end, 9 ppm: “oil at the drain”")]
    [InlineData("de", "Was dieser Besuch nicht erfasst hat", "1A Fresh meat, 14'-0\" vom linken Ende: Kunde im Weg", "1A Fresh meat: Lüfter aus seit 04:05, nicht zurückgestellt; um 04:50 übergeben an R. Ansel", "Notiz bei 1A Fresh meat, 10'-0\" vom linken Ende, 9 ppm: „oil at the drain“")]
    public async Task Report_OfASyncedVisit_TellsWhatItSkippedHandedOverAndNoted(string language, string heading, string skipped, string handed, string note)
    {
        await using var server = await TestServer.WithSurvey();
        var before = await Text(server, "Record", language);
        Assert.DoesNotContain(handed, before, StringComparison.Ordinal);
        await server.Client.PostAsync("/api/surveys/s1/events", Events.Batch(
            "s1", Events.Of("s1", "e2", JournalKinds.LeftOff, 5, new() { ["what"] = "fans-off", ["fixture"] = "C1" }),
            Events.Of("s1", "e3", JournalKinds.Skip, 6, new() { ["point"] = "C1-F04", ["reason"] = "customer in the way" }),
            Events.Of("s1", "e4", JournalKinds.Reading, 7, new() { ["point"] = "C1-F03", ["ppm"] = "9", ["note"] = "oil at the drain" }),
            Events.Of("s1", "e5", JournalKinds.HandedOver, 50, new() { ["item"] = "e2", ["to"] = "R. Ansel" })), Cancel);
        var text = await Text(server, "Record", language);
        Assert.All([heading, skipped, handed, note], line => Assert.Contains(line, text, StringComparison.Ordinal));
        Assert.Contains("R. Ansel", await Text(server, "Manager", language), StringComparison.Ordinal);
        Assert.Empty(server.Errors);
    }

    /// <summary>A device whose clock is set to another zone wrote a start that there is the next day: what was lifted was told of a day without a visit.</summary>
    [Fact]
    public async Task Report_OfAVisitStartedOnAnotherDayOfTheDevicesClock_KnowsWhatWasLifted()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        var at = new DateTimeOffset(2026, 8, 5, 3, 0, 0, TimeSpan.Zero);
        string Event(string id, string kind, JsonObject body) => new JournalEvent { Id = id, Survey = "s1", Device = "d1", Number = 1, Time = at, Kind = kind, Body = body }.Write();
        await server.Client.PostAsync("/api/surveys/s1/events", Events.From(
            "tern-hollow", "2026-08-05T03:00:00+00:00", Event("e1", JournalKinds.Reading, new() { ["point"] = "C1-F03", ["ppm"] = "9" }),
            Event("e2", JournalKinds.Panel, new() { ["panel"] = "C1/2", ["leak"] = true, ["component"] = "coil return bend" })), Cancel);
        Assert.Contains("repair the leak confirmed behind: 1A panel 2 (coil return bend", await Text(server, "Manager", "en"), StringComparison.Ordinal);
    }

    /// <summary>Who waits for it sees how far it is, also while another report is bound first.</summary>
    [Fact]
    public async Task Report_WithAJob_TellsHowFarItIs()
    {
        await using var server = await TestServer.WithSurvey();
        Task<HttpResponseMessage>[] both = [Bind(server, "a", Cancel), Bind(server, "b", Cancel)];
        var (works, waited) = (new HashSet<string>(), false);
        while (!Array.TrueForAll(both, b => b.IsCompleted))
        {
            foreach (var told in new[] { await Ask(server, "a"), await Ask(server, "b") }.OfType<JsonNode>())
            {
                Assert.InRange((double)told["share"]!, 0, 1);
                if ((string?)told["work"] is { } work) works.Add(work);
                else waited = true;
            }
        }

        foreach (var bound in both) Assert.Equal(HttpStatusCode.OK, (await bound).StatusCode);
        Assert.True(waited, "neither report waited for the other");
        Assert.Contains(works, w => w.StartsWith("Locating", StringComparison.Ordinal) || w == "Mapping");
        Assert.Null(await Ask(server, "a"));
        Assert.Null(await Ask(server, "b"));
    }

    [Fact]
    public async Task Report_Stopped_LeavesTheServerFreeForTheNext()
    {
        await using var server = await TestServer.WithSurvey();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Cancel);
        var stopped = Bind(server, "a", stop.Token);
        while (await Ask(server, "a") is null) Assert.False(stopped.IsCompleted);
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => stopped);
        Assert.NotEmpty(await Text(server, "Manager", "en"));
        Assert.Null(await Ask(server, "a"));
        Assert.Empty(server.Errors);
    }

    [Fact]
    public async Task Report_WithAJobThatIsNoId_IsRefused()
    {
        await using var server = await TestServer.WithSurvey();
        var answer = await Bind(server, "a b/c", Cancel);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Contains("id has 1 to 64", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    private static Task<HttpResponseMessage> Bind(TestServer server, string job, CancellationToken cancel) =>
        server.Client.PostAsync("/api/stores/tern-hollow/report", TestServer.Json($$"""{"surveys":["s1"],"job":"{{job}}"}"""), cancel);

    // How far a report is; null when none of this id is being bound.
    private static async Task<JsonNode?> Ask(TestServer server, string job)
    {
        using var answer = await server.Client.GetAsync($"/api/stores/tern-hollow/report/{job}", Cancel);
        return answer.StatusCode == HttpStatusCode.NoContent ? null : JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel));
    }

    private static async Task<string> Text(TestServer server, string part, string language)
    {
        var wish = $$"""{"surveys":["s1"],"parts":["{{part}}"],"language":"{{language}}"}""";
        var answer = await server.Client.PostAsync("/api/stores/tern-hollow/report", TestServer.Json(wish), Cancel);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        using var pdf = PdfDocument.Open(await answer.Content.ReadAsByteArrayAsync(Cancel));
        return string.Join(' ', pdf.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text));
    }
}
