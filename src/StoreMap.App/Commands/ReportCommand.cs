using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Raster;

namespace StoreMap.App.Commands;

/// <summary><c>report</c>: the customer's pack in one PDF.</summary>
internal static class ReportCommand
{
    private static readonly Argument<string> Layout = Arguments.Layout();
    private static readonly Argument<string[]> Surveys = Arguments.Surveys(1);
    private static readonly Option<string?> Service = Arguments.Service();
    private static readonly Option<string?> Company = new("--company") { Description = "The servicing company, for the title blocks.", HelpName = "NAME" };
    private static readonly Option<string> Out = Arguments.OutFile("The PDF to write.", "FILE.pdf");
    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("report", "Binds the customer's pack: a page for the manager, the map, leak details, the comparison and the record.")
        {
            Layout, Surveys, Service, Company, Out,
        };
        Reading.AddTo(command);
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var job = new VisitJob(session, parse.GetValue(Layout)!, parse.GetValue(Surveys)!, Reading.Of(parse), parse.GetValue(Service), parse.GetValue(Company));
        var sheets = job.Report();
        var files = new OutputFiles();
        files.Add(parse.GetValue(Out)!, SheetRaster.ToPdf(sheets, job.Info("Leak survey report")));
        var written = files.Commit(session.Cancel);
        session.Document(() => new JsonObject { ["report"] = written[0], ["pages"] = sheets.Count });
        session.Say(FormattableString.Invariant($"Wrote {written[0]}, {sheets.Count} pages"));
    }
}
