using System.Net;

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
}
