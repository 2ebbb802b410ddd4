using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Documents;
using StoreMap.App.Shell;

namespace StoreMap.App.Commands;

/// <summary><c>map</c>: the heat map over the floor plan.</summary>
internal static class MapCommand
{
    private static readonly VisitVerb Verb = new(1);
    private static readonly Option<string?> Out = Arguments.OutFolder();
    private static readonly Option<string?> Grid = new("--grid") { Description = "Write the field as a grid CSV.", HelpName = "CSV" };
    private static readonly Option<string?> Contours = new("--contours") { Description = "Write the contours as GeoJSON in plan coordinates.", HelpName = "GEOJSON" };
    private static readonly Option<string?> At = new("--at") { Description = "Places x,y in layout units, id if wanted: the net ppm there, with its deviation. Goes to standard output, and to values.csv with --out.", HelpName = "CSV" };

    public static Command Create(Host host) => Verb.Create(
        host, "map", "Draws the heat map of a visit: gas does not cross walls, and floor that nobody probed stays blank.", Run, Grid, Contours, At, Out);

    private static void Run(Session session, ParseResult parse, VisitJob job)
    {
        var files = new OutputFiles();
        if (parse.GetValue(Grid) is { } grid) files.Add(grid, job.GridCsv());
        if (parse.GetValue(Contours) is { } contours) files.Add(contours, job.ContourGeoJson());
        if (parse.GetValue(Out) is { } folder) SheetFiles.Add(files, folder, job.Study.HeatMap(), job.Info());
        var values = parse.GetValue(At) is { } at ? FieldValuesOut.Of(job, at) : null;
        if (values is not null && parse.GetValue(Out) is { } beside) files.Add(Path.Combine(beside, "values.csv"), values.Csv());
        var written = files.Commit(session.Cancel);
        session.Document(() => new JsonObject
        {
            ["cellMetres"] = job.Field.Grid.CellMetres,
            ["evidenceCells"] = job.Field.Evidence.Count(e => e),
            ["highestNetPpm"] = Math.Round(job.Visit.Readings.Max(r => r.NetPpm), 2),
            ["hits"] = job.Visit.Readings.Count(r => r.IsHit),
            ["at"] = values?.Json(),
            ["files"] = UnitsOut.Strings(written),
        });
        if (values is not null) session.Say(values.Text.TrimEnd('\n'));
        session.Say(Words.Hits(job.Store.Plan, job.Visit));
        foreach (var file in written) session.Say($"Wrote {file}");
    }
}
