using System.CommandLine;
using StoreMap.App.Documents;
using StoreMap.App.Shell;

namespace StoreMap.App.Commands;

/// <summary><c>compare</c>: two or more visits side by side.</summary>
internal static class CompareCommand
{
    private static readonly VisitVerb Verb = new(2);
    private static readonly Option<string?> Out = Arguments.OutFolder();

    public static Command Create(Host host) => Verb.Create(
        host, "compare", "Compares visits on equal terms: what is new, what recurs, what is no longer seen, and whether the refrigerant added adds up.", Run, Out);

    private static void Run(Session session, ParseResult parse, VisitJob job)
    {
        if (job.Study.Visits.Count < 2)
        {
            throw InputFile.Refused(Verb.LastSurvey(parse), "two-dates", "All surveys given are of one date, so there is nothing to compare. Name surveys of two or more dates.");
        }

        session.Finish(
            parse.GetValue(Out), "compare.json", () => ComparisonJson.Of(job.Store.Plan, job.Study.Comparison), Words.Comparison(job.Store.Plan, job.Study.Comparison),
            (files, folder) => SheetFiles.AddAll(files, folder, "comparison", job.Study.ComparisonSheets(), job.Info()));
    }
}
