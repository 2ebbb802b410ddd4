using System.Net;
using System.Text.Json.Nodes;

namespace StoreMap.Tests.Serving;

public class SurveysApiTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Events_SentTwiceInAnyOrder_AreKeptOnceAndMakeTheSurvey()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        string[] events = [Events.Reading("s1", "e1", "C1", 3, "7", 1), Events.Reading("s1", "e2", "C1", 6, "<1", 2), Events.Reading("s1", "e3", "C1", 9, "2", 3)];
        await Post(server, events[2], events[0]);
        var again = await Post(server, events);
        Assert.Equal(3, JsonNode.Parse(await again.Content.ReadAsStringAsync(Cancel))!["kept"]!.AsArray().Count);
        var file = JsonNode.Parse(await server.Client.GetStringAsync("/api/surveys/s1/survey.json", Cancel))!;
        Assert.Equal([7.0, 1.0, 2.0], file["readings"]!.AsArray().Select(r => r!["ppm"] is JsonValue v && v.TryGetValue<double>(out var d) ? d : 1.0));
        var after = JsonNode.Parse(await server.Client.GetStringAsync("/api/surveys/s1/events?after=2", Cancel))!.AsArray();
        Assert.Equal("e2", (string)after.Single()!["id"]!);
    }

    [Fact]
    public async Task Events_SameIdOtherContent_AreToldAsDifferent()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        await Post(server, Events.Reading("s1", "e1", "C1", 3, "7"));
        var other = JsonNode.Parse(await (await Post(server, Events.Reading("s1", "e1", "C1", 3, "70"))).Content.ReadAsStringAsync(Cancel))!;
        Assert.Equal("e1", (string)other["different"]!.AsArray().Single()!);
    }

    [Theory]
    [InlineData("not json")]
    [InlineData("{}")]
    [InlineData("""{"v":1,"id":"../../etc/passwd","survey":"s1","device":"d","number":1,"time":"2026-08-04T04:00:00.000-05:00","kind":"note","body":{}}""")]
    [InlineData("""{"v":1,"id":"e9","survey":"s2","device":"d","number":1,"time":"2026-08-04T04:00:00.000-05:00","kind":"note","body":{}}""")]
    [InlineData("""{"v":1,"id":"e9","survey":"s1","device":"d","number":1,"time":"yesterday","kind":"note","body":{}}""")]
    [InlineData("""{"v":1,"id":"e9","survey":"s1","device":"d","number":1,"time":"2026-08-04T04:00:00.000-05:00","kind":"note","body":[]}""")]
    public async Task Events_OneUnreadable_NothingOfTheBatchIsTaken(string bad)
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        Assert.Equal(HttpStatusCode.BadRequest, (await Post(server, Events.Reading("s1", "e1", "C1", 3, "7"), bad)).StatusCode);
        Assert.Equal("[]", await server.Client.GetStringAsync("/api/surveys/s1/events", Cancel));
    }

    [Fact]
    public async Task Events_OfAStoreNotHereYet_AskForTheLayoutFirst()
    {
        await using var server = await TestServer.Start();
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.PostAsync("/api/surveys/s1/events", Events.Of("nowhere", Events.Reading("s1", "e1", "C1", 3, "7")), Cancel)).StatusCode);
    }

    [Fact]
    public async Task Survey_WithAReadingOnAFixtureThatIsGone_KeepsTheOthers()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        await Post(server, Events.Reading("s1", "e1", "GONE", 3, "7", 1), Events.Reading("s1", "e2", "C1", 6, "4", 2));
        var file = JsonNode.Parse(await server.Client.GetStringAsync("/api/surveys/s1/survey.json", Cancel))!;
        Assert.Equal("C1", (string)file["readings"]!.AsArray().Single()!["fixture"]!);
    }

    private static Task<HttpResponseMessage> Post(TestServer server, params string[] events) =>
        server.Client.PostAsync("/api/surveys/s1/events", Events.Batch("s1", events), Cancel);
}
