using System.CommandLine;
using StoreMap.App.Documents;
using StoreMap.App.Shell;
using StoreMap.Sheets;

namespace StoreMap.App.Commands;

/// <summary><c>compare</c>: two or more visits side by side.</summary>
internal static class CompareCommand
{
    private static readonly Argument<string> Layout = Arguments.Layout();
    private static readonly Argument<string[]> Surveys = Arguments.Surveys(2);
    private static readonly Option<string?> Service = Arguments.Service();
    private static readonly Option<string?> Out = Arguments.OutFolder();
    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("compare", "Compares visits on equal terms: what is new, what recurs, what is no longer seen, and whether the refrigerant added adds up.")
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
        if (job.Visits.Count < 2)
        {
            throw InputFile.Refused(parse.GetValue(Surveys)![^1], "two-dates", "All surveys given are of one date, so there is nothing to compare. Name surveys of two or more dates.");
        }

        var files = new OutputFiles();
        if (parse.GetValue(Out) is { } folder)
        {
            files.Add(Path.Combine(folder, "compare.json"), Session.Bytes(ComparisonJson.Of(job.Store.Plan, job.Comparison)));
            SheetFiles.AddAll(files, folder, "comparison", job.ComparisonSheets(), job.Info("Comparison"));
        }

        var written = files.Commit(session.Cancel);
        session.Document(() => ComparisonJson.Of(job.Store.Plan, job.Comparison));
        foreach (var line in Words.Comparison(job.Store.Plan, job.Comparison)) session.Say(line);
        foreach (var file in written) session.Say($"Wrote {file}");
    }
}
