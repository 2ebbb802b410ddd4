using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Serving;
using StoreMap.App.Shell;
using StoreMap.Data;

namespace StoreMap.App.Commands;

/// <summary><c>serve</c>: the web client and its API on the data folder.</summary>
internal static class ServeCommand
{
    private static readonly Option<string> Data = DataFolder();
    private static readonly Option<string> Urls = new("--urls") { Description = "Address to listen on. Any but this machine's own needs https and a sign-in.", HelpName = "URL", DefaultValueFactory = _ => ServeOptions.DefaultUrl };
    private static readonly Option<string?> Certificate = new("--certificate") { Description = "Certificate with its key: PFX (its passphrase in STOREMAP_CERTIFICATE_PASSPHRASE) or PEM.", HelpName = "FILE" };
    private static readonly Option<string?> Proxy = new("--proxy") { Description = "Host name under which a proxy on this machine offers the server over HTTPS; asks for a sign-in.", HelpName = "HOST" };

    public static Command Create(Host host)
    {
        var command = new Command("serve", "Serves the web client and its API; by default to this machine alone.") { Data, Urls, Certificate, Proxy };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    public static Option<string> DataFolder() => new("--data") { Description = "The data folder.", HelpName = "DIR", DefaultValueFactory = _ => "storemap-data" };

    private static void Run(Session session, ParseResult parse)
    {
        var options = ServeOptions.Of(
            parse.GetValue(Data)!, parse.GetValue(Urls)!, parse.GetValue(Certificate), parse.GetValue(Proxy), Environment.GetEnvironmentVariable("STOREMAP_CERTIFICATE_PASSPHRASE"));
        using var app = Refusing.Newer(() => WebServer.Build(options, TimeProvider.System));
        if (options.SignIn && app.Services.GetRequiredService<People>().All().Count == 0) session.Note("Nobody may sign in yet. Add someone: storemap person NAME --role office --data " + options.DataFolder);
        app.StartAsync(session.Cancel).GetAwaiter().GetResult();
        var url = app.Urls.First();
        session.Document(() => new JsonObject { ["url"] = url });
        session.Say($"StoreMap is at {url}. Stop it with Ctrl+C.");
        session.Out.Flush();
        using var stopped = CancellationTokenSource.CreateLinkedTokenSource(session.Cancel, app.Lifetime.ApplicationStopping);
        stopped.Token.WaitHandle.WaitOne();
        app.StopAsync(CancellationToken.None).GetAwaiter().GetResult();
    }
}
