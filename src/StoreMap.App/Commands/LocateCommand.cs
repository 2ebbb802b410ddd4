using System.CommandLine;
using StoreMap.App.Documents;
using StoreMap.App.Shell;

namespace StoreMap.App.Commands;

/// <summary><c>locate</c>: which fixture leaks, where, which panel first, where to probe next.</summary>
internal static class LocateCommand
{
    private static readonly VisitVerb Verb = new(1);
    private static readonly Option<string?> Out = Arguments.OutFolder();

    public static Command Create(Host host) => Verb.Create(
        host, "locate", "Says which case leaks, where along it, which panel to lift first, and where to probe next.", Run, Out);

    private static void Run(Session session, ParseResult parse, VisitJob job) => session.Finish(
        parse.GetValue(Out), "locate.json", () => LocateJson.Of(job.Store.Plan, job.Study.Result), Words.Located(job.Store.Plan, job.Study.Result),
        (files, folder) => SheetFiles.AddAll(files, folder, "leak-zones", job.Study.Details(), job.Info()));
}
