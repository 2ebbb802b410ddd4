using System.Net;
using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using StoreMap.App.Serving;

namespace StoreMap.Tests.Serving;

/// <summary>The listener for others: HTTPS with the given certificate, and a sign-in.</summary>
public class HttpsTests
{
    private const string Secret = "of the key file";
    private const string Words = "four cold words here";
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("server.pfx", Secret)]
    [InlineData("server.pem", null)]
    public async Task Certificate_Given_IsShownAndSignInHolds(string name, string? passphrase)
    {
        using var runner = new Runner();
        using var made = Made();
        var file = runner.PathOf(name);
        await File.WriteAllBytesAsync(file, passphrase is null ? Pem(made) : made.Export(X509ContentType.Pfx, passphrase), Cancel);
        await using var server = await TestServer.Start(url: "https://0.0.0.0:0", certificate: file, passphrase: passphrase);
        server.People.Set("ann", "field", Words);
        using var client = Client(server.Client.BaseAddress!.Port, "https", made.Thumbprint);

        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/stores", Cancel)).StatusCode);
        var signedIn = await client.PostAsync("/api/session", TestServer.Json($$"""{"name":"ann","passphrase":"{{Words}}"}"""), Cancel);
        Assert.Equal(HttpStatusCode.OK, signedIn.StatusCode);
        Assert.Contains("max-age", Assert.Single(signedIn.Headers.GetValues("Strict-Transport-Security")), StringComparison.Ordinal);
        Assert.Equal("[]", await client.GetStringAsync("/api/stores", Cancel));
        Assert.Equal(HttpStatusCode.NoContent, (await client.DeleteAsync("/api/session", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/api/stores", Cancel)).StatusCode);

        // In the clear nobody is answered.
        using var plain = Client(server.Client.BaseAddress.Port, "http", made.Thumbprint);
        await Assert.ThrowsAsync<HttpRequestException>(() => plain.GetAsync("/api/session", Cancel));
    }

    [Theory]
    [InlineData("missing.pem", null, "no such file")]
    [InlineData("text.pem", "no certificate", "can't be read")]
    [InlineData("text.pfx", "no certificate", "can't be read")]
    public void Certificate_MissingOrBroken_IsRefusedInWordsAndNothingIsMade(string name, string? content, string words)
    {
        using var runner = new Runner();
        if (content is not null) runner.Write(name, content);
        Assert.Equal(1, runner.Run("serve", "--data", runner.PathOf("data"), "--urls", "https://127.0.0.1:0", "--certificate", runner.PathOf(name)));
        Assert.Contains(words, runner.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(runner.PathOf("data")));
    }

    private static X509Certificate2 Made()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        return new CertificateRequest("CN=maps.example", key, HashAlgorithmName.SHA256).CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(30));
    }

    private static byte[] Pem(X509Certificate2 made) =>
        System.Text.Encoding.ASCII.GetBytes(made.ExportCertificatePem() + "\n" + made.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem() + "\n");

    // Takes no other certificate than the one expected.
    private static HttpClient Client(int port, string scheme, string thumbprint)
    {
        var handler = new SocketsHttpHandler { CookieContainer = new CookieContainer() };
        handler.SslOptions = new SslClientAuthenticationOptions { RemoteCertificateValidationCallback = (_, shown, _, _) => shown?.GetCertHashString() == thumbprint };
        var client = new HttpClient(handler) { BaseAddress = new Uri($"{scheme}://127.0.0.1:{port}") };
        client.DefaultRequestHeaders.Add(RequestGuard.ClientHeader, "1");
        return client;
    }
}
