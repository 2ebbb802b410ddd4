using System.Collections.Concurrent;
using System.Net;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using StoreMap.App.Serving;
using StoreMap.Data;

namespace StoreMap.Tests.Serving;

/// <summary>The real server on a port that the system picks, on a data folder of its own.</summary>
internal sealed class TestServer : IAsyncDisposable
{
    private readonly WebApplication app;

    private TestServer(WebApplication app, string folder)
    {
        (this.app, Folder) = (app, folder);
        app.Services.GetRequiredService<ILoggerFactory>().AddProvider(new ErrorLog(Errors));
        Client = NewClient();
    }

    public string Folder { get; }

    public TestTime Clock { get; private init; } = null!;

    public HttpClient Client { get; }

    /// <summary>What the framework logged as an error, that is, on the console.</summary>
    public ConcurrentQueue<string> Errors { get; } = new();

    public People People => app.Services.GetRequiredService<People>();

    public static async Task<TestServer> Start(string? proxyHost = null, string? folder = null, string url = "http://127.0.0.1:0", string? certificate = null, string? passphrase = null)
    {
        folder ??= Path.Combine(Path.GetTempPath(), "storemap-serve-" + Path.GetRandomFileName());
        var clock = new TestTime();
        var app = WebServer.Build(ServeOptions.Of(folder, url, certificate, proxyHost, passphrase), clock);
        await app.StartAsync(TestContext.Current.CancellationToken);
        return new TestServer(app, folder) { Clock = clock };
    }

    /// <summary>A browser of its own: cookies kept, our header sent.</summary>
    /// <summary>With the demo store and a visit s1 of one reading.</summary>
    public static async Task<TestServer> WithSurvey()
    {
        var server = await Start();
        await server.PutDemo();
        await server.Client.PostAsync("/api/surveys/s1/events", Events.Batch("s1", Events.Reading("s1", "e1", "C1", 3, "7")), TestContext.Current.CancellationToken);
        return server;
    }

    public HttpClient NewClient(bool ours = true)
    {
        var client = new HttpClient(new SocketsHttpHandler { CookieContainer = new CookieContainer(), AllowAutoRedirect = false }) { BaseAddress = new Uri(app.Urls.First()) };
        if (ours) client.DefaultRequestHeaders.Add(RequestGuard.ClientHeader, "1");
        return client;
    }

    public static StringContent Json(string text) => new(text, Encoding.UTF8, "application/json");

    public static string DemoLayout { get; } = File.ReadAllText(Runner.Demo("tern-hollow.layout.json"));

    public Task<HttpResponseMessage> PutDemo(HttpClient? client = null, string? madeFrom = null, string? text = null)
    {
        var request = new HttpRequestMessage(HttpMethod.Put, "/api/stores/tern-hollow/layout") { Content = Json(text ?? DemoLayout) };
        if (madeFrom is not null) request.Headers.TryAddWithoutValidation("If-Match", madeFrom);
        return (client ?? Client).SendAsync(request, TestContext.Current.CancellationToken);
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await app.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(Folder, recursive: true);
    }
}

/// <summary>A clock moved by the test.</summary>
internal sealed class TestTime : TimeProvider
{
    public DateTimeOffset Now { get; set; } = DateTimeOffset.UtcNow;

    public override DateTimeOffset GetUtcNow() => Now;
}

/// <summary>Keeps what is logged as an error.</summary>
internal sealed class ErrorLog(ConcurrentQueue<string> errors) : ILoggerProvider, ILogger
{
    public ILogger CreateLogger(string categoryName) => this;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Error;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
    {
        if (IsEnabled(logLevel)) errors.Enqueue($"{formatter(state, exception)} {exception}");
    }

    public void Dispose()
    {
    }
}
