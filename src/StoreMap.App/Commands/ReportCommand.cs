using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Raster;
using StoreMap.Sheets;

namespace StoreMap.App.Commands;

/// <summary><c>report</c>: the customer's pack in one PDF.</summary>
internal static class ReportCommand
{
    private static readonly VisitVerb Verb = new(1);
    private static readonly Option<string> Out = Arguments.OutFile("The PDF to write.", "FILE.pdf");
    private static readonly Option<string?> Summary = new("--summary") { Description = "Write the page for the manager alone too.", HelpName = "FILE.pdf" };

    public static Command Create(Host host) => Verb.Create(
        host, "report", "Binds the customer's pack: a page for the manager, the map, leak details, the comparison, repair cards and the record.", Run, Out, Summary);

    private static void Run(Session session, ParseResult parse, VisitJob job)
    {
        var sheets = job.Study.Report();
        var files = new OutputFiles();
        files.Add(parse.GetValue(Out)!, SheetRaster.ToPdf(sheets, job.Info(ReportPages.Title(job.Store.Plan, job.Study.Context))));
        if (parse.GetValue(Summary) is { } summary) files.Add(summary, SheetRaster.ToPdf(job.Study.Summary(), job.Info()));
        var written = files.Commit(session.Cancel);
        session.Document(() => new JsonObject { ["report"] = written[0], ["pages"] = sheets.Count });
        session.Say(FormattableString.Invariant($"Wrote {written[0]}, {sheets.Count} pages"));
    }
}
