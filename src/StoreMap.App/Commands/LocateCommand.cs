using System.CommandLine;
using StoreMap.App.Documents;
using StoreMap.App.Shell;

namespace StoreMap.App.Commands;

/// <summary><c>locate</c>: which fixture leaks, where, which panel first, where to probe next.</summary>
internal static class LocateCommand
{
    private static readonly Argument<string> Layout = Arguments.Layout();
    private static readonly Argument<string[]> Surveys = Arguments.Surveys(1);
    private static readonly Option<string?> Service = Arguments.Service();
    private static readonly Option<string?> Out = Arguments.OutFolder();
    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("locate", "Says which case leaks, where along it, which panel to lift first, and where to probe next.")
        {
            Layout, Surveys, Service, Out,
        };
        Reading.AddTo(command);
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var job = new VisitJob(session, parse.GetValue(Layout)!, parse.GetValue(Surveys)!, Reading.Of(parse), parse.GetValue(Service));
        var files = new OutputFiles();
        if (parse.GetValue(Out) is { } folder)
        {
            files.Add(Path.Combine(folder, "locate.json"), Session.Bytes(LocateJson.Of(job.Store.Plan, job.Result)));
            SheetFiles.AddAll(files, folder, "leak-zones", job.Details(), job.Info("Leak zones"));
        }

        var written = files.Commit(session.Cancel);
        session.Document(() => LocateJson.Of(job.Store.Plan, job.Result));
        foreach (var line in Words.Located(job.Store.Plan, job.Result)) session.Say(line);
        foreach (var file in written) session.Say($"Wrote {file}");
    }
}
