using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using StoreMap.Data;

namespace StoreMap.App.Serving;

/// <summary>The web API and the client's files on one data folder.</summary>
internal static class WebServer
{
    /// <summary>Largest body of a request.</summary>
    public const long MostBytes = 8 << 20;

    /// <summary>Builds the server; it listens once started.</summary>
    public static WebApplication Build(ServeOptions options, TimeProvider clock)
    {
        var certificate = options.Certificate is { } file ? ServerCertificate.Load(file, options.CertificatePassphrase) : null;
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions
        {
            ApplicationName = "storemap", ContentRootPath = AppContext.BaseDirectory, EnvironmentName = "Production",
        });
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel => Listen(kestrel, options, certificate));
        builder.WebHost.UseStaticWebAssets();
        if (certificate is not null) builder.WebHost.UseKestrelHttpsConfiguration();
        builder.Logging.AddFilter("Microsoft", LogLevel.Error).AddSimpleConsole(c => c.SingleLine = true);
        AddServices(builder.Services, options, clock);
        var app = builder.Build();
        Map(app, options);
        return app;
    }

    private static void AddServices(IServiceCollection services, ServeOptions options, TimeProvider clock)
    {
        var database = StoreDatabase.Open(options.DataFolder, clock);
        services.AddSingleton(options).AddSingleton(clock).AddSingleton(database)
            .AddSingleton<Layouts>().AddSingleton<Journal>().AddSingleton<Findings>().AddSingleton<People>().AddSingleton<Photos>().AddSingleton<Devices>().AddSingleton<ReportJobs>();
        // Made by the container so that the last lines are written when it ends.
        services.AddSingleton(_ => RequestLog.Files(Path.Combine(options.DataFolder, "logs")));
        services.AddRouting();
        // Marks such as < leave as escapes, so that an answer is no markup wherever it ends up.
        services.ConfigureHttpJsonOptions(json => json.SerializerOptions.Encoder = System.Text.Encodings.Web.JavaScriptEncoder.Default);
        services.AddOpenApi("storemap");
        // Sign-ins outlive a restart of the server.
        services.AddDataProtection().SetApplicationName("storemap").PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(options.DataFolder, "keys")));
        services.AddHostFiltering(filter => filter.AllowedHosts = AllowedHosts(options));
        services.Configure<ForwardedHeadersOptions>(forwarded => forwarded.ForwardedHeaders = ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedFor);
        SignInCookie.Add(services, options);
    }

    private static void Map(WebApplication app, ServeOptions options)
    {
        if (options.ProxyHost is not null) app.UseForwardedHeaders();
        app.UseMiddleware<RequestLog>();
        app.UseHostFiltering();
        app.UseMiddleware<SecurityHeaders>();
        app.UseMiddleware<RequestGuard>();
        app.UseMiddleware<UploadLimit>();
        app.UseRouting();
        SignInCookie.Use(app, options);
        DevicesApi.Use(app);
        app.MapOpenApi("/api/{documentName}.openapi.json");
        var api = app.MapGroup("/api").RequireAuthorization();
        SessionApi.Map(api);
        StoresApi.Map(api);
        SurveysApi.Map(api);
        PhotosApi.Map(api);
        FindingsApi.Map(api);
        ReportApi.Map(api);
        PeopleApi.Map(api);
        DevicesApi.Map(api);
        ExportApi.Map(api);
        api.MapFallback(() => Results.NotFound());
        ClientFiles.Map(app);
    }

    private static void Listen(KestrelServerOptions kestrel, ServeOptions options, X509Certificate2? certificate)
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = MostBytes;
        kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(20);
        void Https(ListenOptions listen)
        {
            if (certificate is not null) listen.UseHttps(certificate);
        }

        var port = options.Url.Port;
        var host = options.Url.Host.Trim('[', ']');
        // Port 0, one that the system picks, can't be asked for on "localhost", which is two addresses.
        if (host == "localhost" && port != 0) kestrel.ListenLocalhost(port, Https);
        else kestrel.Listen(host == "localhost" ? System.Net.IPAddress.Loopback : System.Net.IPAddress.Parse(host), port, Https);
    }

    // A page of another name that points at this machine must not be answered.
    private static List<string> AllowedHosts(ServeOptions options) => options switch
    {
        { ProxyHost: { } host } => [host, "localhost", "127.0.0.1", "[::1]"],
        { Loopback: true } => ["localhost", "127.0.0.1", "[::1]"],
        _ => ["*"],
    };
}
