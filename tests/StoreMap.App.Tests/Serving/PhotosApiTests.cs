using System.Net;
using System.Net.Http.Headers;
using StoreMap.App.Serving;

namespace StoreMap.Tests.Serving;

/// <summary>Photos as the server takes them. The markers are those of ITU-T T.81, table B.1.</summary>
public class PhotosApiTests
{
    private static readonly byte[] Frame = [0xFF, 0xC0, 0, 11, 8, 0, 2, 0, 3, 1, 1, 0x11, 0];
    private static readonly byte[] Scan = [0xFF, 0xDA, 0, 8, 1, 1, 0, 0, 63, 0, 0x55, 0xAA];
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Photo_SentTwice_IsKeptAndGivenBackAsAPicture()
    {
        await using var server = await TestServer.WithSurvey();
        var image = Jpeg(Frame, Scan);
        Assert.Equal(HttpStatusCode.NoContent, await Put(server, "s1/photos/p1", image));
        Assert.Equal(HttpStatusCode.NoContent, await Put(server, "s1/photos/p1", image));
        Assert.Equal(HttpStatusCode.Conflict, await Put(server, "s1/photos/p1", Jpeg(Frame, Scan, [0xFF, 0xDA, 0, 2])));
        var answer = await server.Client.GetAsync("/api/surveys/s1/photos/p1", Cancel);
        Assert.Equal("image/jpeg", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal(image, await answer.Content.ReadAsByteArrayAsync(Cancel));
        await using var zip = new System.IO.Compression.ZipArchive(await server.Client.GetStreamAsync("/api/export.zip", Cancel));
        Assert.Contains("tern-hollow/s1.photos/p1.jpg", zip.Entries.Select(e => e.FullName));
    }

    [Fact]
    public async Task Photo_OfAFinding_IsTheStores()
    {
        await using var server = await TestServer.Start();
        await server.PutDemo();
        var image = Jpeg(Frame, Scan);
        async Task<HttpStatusCode> Send(string store) => (await server.Client.PutAsync($"/api/stores/{store}/photos/p1", Content(image), Cancel)).StatusCode;
        Assert.Equal(HttpStatusCode.NotFound, await Send("elsewhere"));
        Assert.Equal(HttpStatusCode.NoContent, await Send("tern-hollow"));
        Assert.Equal(image, await server.Client.GetByteArrayAsync("/api/stores/tern-hollow/photos/p1", Cancel));
        await using var zip = new System.IO.Compression.ZipArchive(await server.Client.GetStreamAsync("/api/export.zip", Cancel));
        Assert.Contains("tern-hollow/tern-hollow.photos/p1.jpg", zip.Entries.Select(e => e.FullName));
    }

    public static TheoryData<string, byte[]> Hostile => new()
    {
        { "text", "GIF89a not a photo"u8.ToArray() },
        { "script in a drawing", "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>"u8.ToArray() },
        { "page behind the first marker", [0xFF, 0xD8, .. "<html><script>alert(1)</script>"u8, 0xFF, 0xD9] },
        { "nothing", [] },
        { "cut off", [0xFF, 0xD8, .. Frame] },
        { "length past the end", Jpeg([0xFF, 0xC0, 0xFF, 0xFF, 8, 0, 2, 0, 3]) },
        { "no frame", Jpeg(Scan) },
        { "huge sides", Jpeg([0xFF, 0xC0, 0, 11, 8, 0xFF, 0xFF, 0xFF, 0xFF, 1, 1, 0x11, 0], Scan) },
        { "metadata", Jpeg([0xFF, 0xE1, 0, 8, .. "Exif\0\0"u8], Frame, Scan) },
        { "comment", Jpeg([0xFF, 0xFE, 0, 4, 65, 65], Frame, Scan) },
    };

    [Theory]
    [MemberData(nameof(Hostile))]
    public async Task Photo_ThatIsNone_IsRefused(string what, byte[] bytes)
    {
        await using var server = await TestServer.WithSurvey();
        Assert.True(HttpStatusCode.BadRequest == await Put(server, "s1/photos/p1", bytes), what);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/surveys/s1/photos/p1", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Photo_OfWrongTypeSizeNameOrSurvey_IsRefused()
    {
        await using var server = await TestServer.WithSurvey();
        var image = Jpeg(Frame, Scan);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, await Put(server, "s1/photos/p1", image, "image/svg+xml"));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, await Put(server, "s1/photos/p1", Jpeg(Frame, Scan, new byte[PhotosApi.MostBytes])));
        Assert.Equal(HttpStatusCode.BadRequest, await Put(server, "s1/photos/p%201", image));
        Assert.Equal(HttpStatusCode.NotFound, await Put(server, "s9/photos/p1", image));
        using var plain = server.NewClient(ours: false);
        Assert.Equal(HttpStatusCode.Forbidden, (await plain.PutAsync("/api/surveys/s1/photos/p1", Content(image), Cancel)).StatusCode);
    }

    private static byte[] Jpeg(params byte[][] parts) => [0xFF, 0xD8, .. parts.SelectMany(p => p), 0xFF, 0xD9];

    private static async Task<HttpStatusCode> Put(TestServer server, string path, byte[] image, string type = "image/jpeg") =>
        (await server.Client.PutAsync($"/api/surveys/{path}", Content(image, type), Cancel)).StatusCode;

    private static ByteArrayContent Content(byte[] image, string type = "image/jpeg")
    {
        var content = new ByteArrayContent(image);
        content.Headers.ContentType = new MediaTypeHeaderValue(type);
        return content;
    }
}
