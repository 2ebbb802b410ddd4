using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using StoreMap.App.Serving;

namespace StoreMap.Tests.Serving;

public class UploadLimitTests
{
    [Theory]
    [InlineData("PUT", "/api/stores/tern-hollow/layout", true)]
    [InlineData("PUT", "/api/stores/tern-hollow/layout", false)]
    [InlineData("POST", "/api/surveys/s1/events", true)]
    [InlineData("POST", "/api/surveys/s1/events", false)]
    public async Task Upload_OverTheLimit_IsRefusedInWordsAndLeavesNoTraceInTheLog(string method, string path, bool lengthTold)
    {
        await using var server = await TestServer.Start();
        using var request = new HttpRequestMessage(new HttpMethod(method), path) { Content = new Spaces(WebServer.MostBytes + 1, lengthTold) };
        using var answer = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        using var problem = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Equal("too-large", problem.RootElement.GetProperty("rule").GetString());
        var message = problem.RootElement.GetProperty("message").GetString()!;
        foreach (var told in new[] { "8 MiB", "nothing of it was kept", "choose the right file" }) Assert.Contains(told, message, StringComparison.Ordinal);

        // The server goes on, and neither console nor file tells of a failure.
        Assert.Equal("[]", await server.Client.GetStringAsync("/api/stores", TestContext.Current.CancellationToken));
        Assert.Empty(server.Errors);
        File.Copy(Directory.GetFiles(Path.Combine(server.Folder, "logs")).Single(), Path.Combine(server.Folder, "copy"));
        var line = JsonDocument.Parse((await File.ReadAllLinesAsync(Path.Combine(server.Folder, "copy"), TestContext.Current.CancellationToken))[0]).RootElement;
        Assert.Equal(413, line.GetProperty("Status").GetInt32());
        Assert.False(line.TryGetProperty("Trace", out _));
    }

    private sealed class Spaces : HttpContent
    {
        private readonly byte[] bytes;
        private readonly bool told;

        public Spaces(long length, bool told)
        {
            (bytes, this.told) = (new byte[length], told);
            Array.Fill(bytes, (byte)' ');
            Headers.ContentType = new MediaTypeHeaderValue("application/json");
        }

        protected override Task SerializeToStreamAsync(Stream stream, TransportContext? context) => stream.WriteAsync(bytes).AsTask();

        protected override bool TryComputeLength(out long length)
        {
            length = bytes.Length;
            return told;
        }
    }
}
