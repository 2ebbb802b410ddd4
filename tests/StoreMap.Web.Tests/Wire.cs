using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

namespace StoreMap.Tests;

/// <summary>What lies between a device and the server. It can be cut, and can hand the client on as another version of it: one file differs,
/// and with it the list that the service worker goes by.</summary>
/// <remarks>Tests cut the network here, not by the browser's own switch, which has been seen to hang while service workers change.</remarks>
internal sealed partial class Wire : IAsyncDisposable
{
    /// <summary>Stands in the style sheet of the newer version.</summary>
    public const string Mark = "/* newer */";

    private readonly HttpListener listener = new();
    private readonly HttpClient server;
    private readonly Task serving;
    private volatile bool newer;
    private volatile bool lacking;
    private volatile bool cut;
    private ConcurrentQueue<string> asked = [];

    public Wire(string serverUrl)
    {
        server = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false, UseCookies = false }) { BaseAddress = new Uri(serverUrl) };
        Url = $"http://localhost:{Ports.Free()}";
        listener.Prefixes.Add(Url + "/");
        listener.Start();
        serving = Serve();
    }

    public string Url { get; }

    /// <summary>Hands out the newer version from now on.</summary>
    /// <param name="whole">False when the file that differs can't be had.</param>
    public void Update(bool whole = true)
    {
        asked = [];
        (newer, lacking) = (true, !whole);
    }

    /// <summary>Answers nothing from now on, as when the network goes.</summary>
    public void Cut() => cut = true;

    /// <summary>Answers again.</summary>
    public void Mend() => cut = false;

    /// <summary>Paths of what was asked for since the update, the server's answers aside.</summary>
    public IReadOnlyList<string> Asked => [.. asked.Where(p => !p.StartsWith("/api/", StringComparison.Ordinal))];

    public async ValueTask DisposeAsync()
    {
        listener.Stop();
        await serving;
        listener.Close();
        server.Dispose();
    }

    private async Task Serve()
    {
        while (listener.IsListening)
        {
            try
            {
                var context = await listener.GetContextAsync();
                _ = Task.Run(() => Answer(context));
            }
            catch (Exception e) when (e is HttpListenerException or ObjectDisposedException)
            {
                return;
            }
        }
    }

    private async Task Answer(HttpListenerContext context)
    {
        asked.Enqueue(context.Request.Url!.AbsolutePath);
        try
        {
            if (cut || (lacking && context.Request.Url!.AbsolutePath == "/app.css"))
            {
                context.Response.Abort();
                return;
            }

            var changed = newer && context.Request.Url!.AbsolutePath is "/app.css" or "/service-worker-assets.js";
            using var request = new HttpRequestMessage(new HttpMethod(context.Request.HttpMethod), context.Request.RawUrl);
            if (context.Request.HasEntityBody) request.Content = new StreamContent(context.Request.InputStream);
            foreach (var name in context.Request.Headers.AllKeys.OfType<string>().Where(n => n is not "Connection" and not "Transfer-Encoding"))
            {
                if (changed && name is "If-None-Match" or "If-Modified-Since" or "Accept-Encoding") continue;
                if (!request.Headers.TryAddWithoutValidation(name, context.Request.Headers[name])) request.Content?.Headers.TryAddWithoutValidation(name, context.Request.Headers[name]);
            }

            using var answer = await server.SendAsync(request);
            var body = await answer.Content.ReadAsByteArrayAsync();
            if (changed) body = Encoding.UTF8.GetBytes(await Newer(context.Request.Url!.AbsolutePath, Encoding.UTF8.GetString(body)));
            context.Response.StatusCode = (int)answer.StatusCode;
            foreach (var (name, values) in answer.Headers.Concat(answer.Content.Headers))
            {
                if (name is "Transfer-Encoding" or "Content-Length" or "Connection" || (changed && name is "ETag" or "Last-Modified")) continue;
                foreach (var value in values) context.Response.AddHeader(name, value);
            }

            context.Response.ContentLength64 = body.Length;
            if (context.Request.HttpMethod != "HEAD") await context.Response.OutputStream.WriteAsync(body);
            context.Response.Close();
        }
        catch (Exception e) when (e is HttpRequestException or HttpListenerException or IOException or ObjectDisposedException or TaskCanceledException)
        {
            context.Response.Abort();
        }
    }

    private async Task<string> Newer(string path, string text)
    {
        if (path == "/app.css") return text + Mark;
        var css = await server.GetStringAsync("/app.css") + Mark;
        var hash = "sha256-" + Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(css)));
        text = Version().Replace(text, "\"version\": \"newer\"", 1);
        return CssHash().Replace(text, m => m.Groups[1].Success ? $"\"hash\": \"{hash}\",{m.Groups[1].Value}" : $"{m.Groups[2].Value}\"hash\": \"{hash}\"", 1);
    }

    [GeneratedRegex(@"""version""\s*:\s*""[^""]*""")]
    private static partial Regex Version();

    // The two fields come in either order.
    [GeneratedRegex(@"""hash""\s*:\s*""[^""]*"",(\s*""url""\s*:\s*""app\.css"")|(""url""\s*:\s*""app\.css"",\s*)""hash""\s*:\s*""[^""]*""")]
    private static partial Regex CssHash();
}
