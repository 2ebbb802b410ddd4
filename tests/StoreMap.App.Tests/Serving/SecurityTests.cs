using System.IO.Compression;
using System.Net;
using System.Net.Sockets;
using System.Text;
using StoreMap.App.Serving;

namespace StoreMap.Tests.Serving;

public class SecurityTests
{
    private const string Words = "four cold words here";
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("http://0.0.0.0:5080")]
    [InlineData("http://192.0.2.7:5080")]
    [InlineData("http://store.example:5080")]
    [InlineData("https://127.0.0.1:5443")]
    [InlineData("ftp://127.0.0.1")]
    [InlineData("nonsense")]
    public void Serve_InTheClearToOthers_IsRefused(string url)
    {
        using var runner = new Runner();
        Assert.Equal(1, runner.Run("serve", "--data", runner.PathOf("data"), "--urls", url));
        Assert.False(Directory.Exists(runner.PathOf("data")));
    }

    [Fact]
    public void Options_OtherAddressOrProxy_AskForSignIn()
    {
        Assert.False(ServeOptions.Of("d", "http://127.0.0.1:1", null, null, null).SignIn);
        Assert.False(ServeOptions.Of("d", "http://[::1]:1", null, null, null).SignIn);
        Assert.True(ServeOptions.Of("d", "http://127.0.0.1:1", null, "maps.example", null).SignIn);
        Assert.True(ServeOptions.Of("d", "https://0.0.0.0:1", "cert.pem", null, null).SignIn);
    }

    [Fact]
    public async Task Api_WithoutSignIn_TellsNothing()
    {
        await using var server = await TestServer.Start("maps.example");
        foreach (var path in new[] { "/api/stores", "/api/stores/tern-hollow/layout", "/api/surveys/s1/events", "/api/export.zip", "/api/backup.db", "/api/people", "/api/anything" })
            Assert.Equal(HttpStatusCode.Unauthorized, (await server.Client.GetAsync(path, Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await server.PutDemo()).StatusCode);
    }

    [Fact]
    public async Task SignIn_Right_SetsAStrictCookieThatOnlyHttpsCarries()
    {
        await using var server = await TestServer.Start("maps.example");
        server.People.Set("ann", "field", Words);
        var answer = await SignIn(server.Client, "ann", Words);
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));
        foreach (var part in new[] { "secure", "samesite=strict", "httponly" }) Assert.Contains(part, cookie, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Roles_FieldMayLogButNotChangeLayoutsOrPeople()
    {
        await using var server = await TestServer.Start("maps.example");
        server.People.Set("ann", "field", Words);
        server.People.Set("olga", "office", Words);
        using var field = await SignedIn(server, "ann");
        using var office = await SignedIn(server, "olga");
        Assert.Equal(HttpStatusCode.OK, (await server.PutDemo(field)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await field.PostAsync("/api/surveys/s1/events", Events.Batch("s1", Events.Reading("s1", "e1", "C1", 3, "7")), Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await server.PutDemo(field, "\"1\"")).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await field.GetAsync("/api/people", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await field.GetAsync("/api/backup.db", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await server.PutDemo(office, "\"1\"")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await office.GetAsync("/api/people", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Person_ShutOut_IsOutAtTheNextContact()
    {
        await using var server = await TestServer.Start("maps.example");
        server.People.Set("ann", "field", Words);
        using var field = await SignedIn(server, "ann");
        Assert.Equal(HttpStatusCode.OK, (await field.GetAsync("/api/stores", Cancel)).StatusCode);
        server.People.Remove("ann");
        Assert.Equal(HttpStatusCode.Unauthorized, (await field.GetAsync("/api/stores", Cancel)).StatusCode);
    }

    [Fact]
    public async Task SignIn_WrongFiveTimes_LocksAndSaysHowLong()
    {
        await using var server = await TestServer.Start("maps.example");
        server.People.Set("ann", "field", Words);
        for (var i = 0; i < 4; i++) Assert.Equal(HttpStatusCode.Unauthorized, (await SignIn(server.Client, "ann", "wrong")).StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await SignIn(server.Client, "ann", "wrong")).StatusCode);
        var right = await SignIn(server.Client, "ann", Words);
        Assert.Equal(HttpStatusCode.TooManyRequests, right.StatusCode);
        Assert.Equal(300, right.Headers.RetryAfter!.Delta!.Value.TotalSeconds);
        server.Clock.Now = server.Clock.Now.AddMinutes(5.1);
        Assert.Equal(HttpStatusCode.OK, (await SignIn(server.Client, "ann", Words)).StatusCode);
    }

    [Theory]
    [InlineData("Origin", "https://evil.example")]
    [InlineData("Origin", "null")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    public async Task Change_FromAnotherSitesPage_IsRefused(string header, string value)
    {
        await using var server = await TestServer.Start();
        server.Client.DefaultRequestHeaders.Add(header, value);
        Assert.Equal(HttpStatusCode.Forbidden, (await server.PutDemo()).StatusCode);
        Assert.Equal("[]", await server.Client.GetStringAsync("/api/stores", Cancel));
    }

    [Fact]
    public async Task Change_WithoutOurHeader_IsRefused()
    {
        await using var server = await TestServer.Start();
        using var plain = server.NewClient(ours: false);
        Assert.Equal(HttpStatusCode.Forbidden, (await server.PutDemo(plain)).StatusCode);
    }

    [Fact]
    public async Task Request_ForAnotherHostName_IsRefused()
    {
        await using var server = await TestServer.Start();
        server.Client.DefaultRequestHeaders.Host = "rebound.example";
        Assert.Equal(HttpStatusCode.BadRequest, (await server.Client.GetAsync("/api/stores", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Request_ThroughAProxyNobodyTold_IsRefused()
    {
        await using var server = await TestServer.Start();
        server.Client.DefaultRequestHeaders.Add("X-Forwarded-For", "192.0.2.9");
        Assert.Equal(HttpStatusCode.Forbidden, (await server.Client.GetAsync("/api/stores", Cancel)).StatusCode);
    }

    [Theory]
    [InlineData("/../../../../etc/passwd")]
    [InlineData("/%2e%2e/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/api/stores/..%2f..%2fkeys/layout")]
    [InlineData("/storemap.db")]
    public async Task Path_OutOfTheFolder_LeadsNowhere(string path)
    {
        await using var server = await TestServer.Start();
        var text = await RawGet(server.Client.BaseAddress!.Port, path);
        Assert.DoesNotContain("root:", text, StringComparison.Ordinal);
        Assert.DoesNotContain("SQLite format", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Upload_SvgWithScriptZipBombOrOtherType_IsRefused()
    {
        await using var server = await TestServer.Start();
        Assert.Equal(HttpStatusCode.BadRequest, (await server.PutDemo(text: "<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>")).StatusCode);
        using var packed = new MemoryStream();
        using (var gzip = new GZipStream(packed, CompressionLevel.SmallestSize, leaveOpen: true)) gzip.Write(new byte[64 << 20]);
        using var bomb = new ByteArrayContent(packed.ToArray());
        bomb.Headers.Add("Content-Encoding", "gzip");
        bomb.Headers.Add("Content-Type", "application/json");
        Assert.Equal(HttpStatusCode.BadRequest, (await server.Client.PutAsync("/api/stores/tern-hollow/layout", bomb, Cancel)).StatusCode);
        using var form = new StringContent("store=tern-hollow", Encoding.UTF8, "application/x-www-form-urlencoded");
        Assert.Contains((await server.Client.PostAsync("/api/surveys/s1/events", form, Cancel)).StatusCode, new[] { HttpStatusCode.UnsupportedMediaType, HttpStatusCode.NotFound });
    }

    [Theory]
    [InlineData("../../evil")]
    [InlineData("..")]
    [InlineData("a/b")]
    [InlineData("C:evil")]
    public async Task Store_NamedLikeAPath_IsRefused(string id)
    {
        await using var server = await TestServer.Start();
        var text = TestServer.DemoLayout.Replace("\"tern-hollow\"", System.Text.Json.JsonSerializer.Serialize(id), StringComparison.Ordinal);
        var answer = await server.Client.PutAsync($"/api/stores/{Uri.EscapeDataString(id)}/layout", TestServer.Json(text), Cancel);
        Assert.NotEqual(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("[]", await server.Client.GetStringAsync("/api/stores", Cancel));
    }

    [Fact]
    public async Task StoredText_ThatLooksLikeMarkup_LeavesAsJsonAlone()
    {
        const string Markup = "<script>alert(1)</script>";
        await using var server = await TestServer.Start();
        await server.PutDemo(text: TestServer.DemoLayout.Replace("Tern Hollow", Markup, StringComparison.Ordinal));
        await server.Client.PostAsync("/api/surveys/s1/events", Events.Batch("s1", Events.Reading("s1", "e1", "C1", 3, "7").Replace("\"ppm\"", $"\"note\":\"{Markup}\",\"ppm\"", StringComparison.Ordinal)), Cancel);
        foreach (var path in new[] { "/api/stores", "/api/stores/tern-hollow/layout", "/api/surveys/s1/events", "/api/surveys/s1/survey.json" })
        {
            var answer = await server.Client.GetAsync(path, Cancel);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            Assert.Equal("application/json", answer.Content.Headers.ContentType!.MediaType);
            Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
            Assert.Contains("script", await answer.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        }

        Assert.DoesNotContain("<", await server.Client.GetStringAsync("/api/stores", Cancel), StringComparison.Ordinal);
    }

    /// <summary>With our header or, as a thief would send it, with the sign-in alone.</summary>
    [Fact]
    public async Task Device_Lost_IsShutOutWhateverItSendsAndLetInAgainWhenFound()
    {
        await using var server = await TestServer.Start("maps.example");
        server.People.Set("ann", "field", Words);
        server.People.Set("olga", "office", Words);
        using var field = await SignedIn(server, "ann", "tablet-7");
        using var office = await SignedIn(server, "olga", "desk-1");
        Assert.Equal(HttpStatusCode.OK, (await field.GetAsync("/api/stores", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await office.GetAsync("/api/stores", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, (await field.PutAsync("/api/devices/desk-1/lost", null, Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await office.PutAsync("/api/devices/none/lost", null, Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await office.PutAsync("/api/devices/tablet-7/lost", null, Cancel)).StatusCode);
        foreach (var path in new[] { "/api/session", "/api/stores" }) Assert.Equal(HttpStatusCode.Gone, (await field.GetAsync(path, Cancel)).StatusCode);
        field.DefaultRequestHeaders.Remove("X-StoreMap-Device");
        Assert.Equal(HttpStatusCode.Gone, (await field.GetAsync("/api/stores", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await office.GetAsync("/api/stores", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NoContent, (await office.DeleteAsync("/api/devices/tablet-7/lost", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await field.GetAsync("/api/stores", Cancel)).StatusCode);
    }

    [Fact]
    public async Task EveryAnswer_CarriesTheContentPolicy()
    {
        await using var server = await TestServer.Start();
        var answer = await server.Client.GetAsync("/api/session", Cancel);
        var policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe-inline", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
    }

    private static Task<HttpResponseMessage> SignIn(HttpClient client, string name, string passphrase) =>
        client.PostAsync("/api/session", TestServer.Json($$"""{"name":"{{name}}","passphrase":"{{passphrase}}"}"""), Cancel);

    // The cookie is for HTTPS alone, as a proxy would give it; it is carried over by hand here.
    private static async Task<HttpClient> SignedIn(TestServer server, string name, string? device = null)
    {
        var client = server.NewClient();
        if (device is not null) client.DefaultRequestHeaders.Add("X-StoreMap-Device", device);
        var answer = await SignIn(client, name, Words);
        client.DefaultRequestHeaders.Add("Cookie", answer.Headers.GetValues("Set-Cookie").Single().Split(';')[0]);
        return client;
    }

    // A client library would tidy the path before sending it.
    private static async Task<string> RawGet(int port, string path)
    {
        using var socket = new TcpClient();
        await socket.ConnectAsync(IPAddress.Loopback, port, Cancel);
        var stream = socket.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n\r\n"), Cancel);
        using var reader = new StreamReader(stream);
        return await reader.ReadToEndAsync(Cancel);
    }
}
