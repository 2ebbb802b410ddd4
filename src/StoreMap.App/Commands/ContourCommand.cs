using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Fields;

namespace StoreMap.App.Commands;

/// <summary><c>contour</c>: isolines of a grid and what they measure.</summary>
internal static class ContourCommand
{
    private static readonly Argument<string> Grid = new("grid")
    {
        Description = "A bare matrix of numbers, row j at y = j x step, column i at x = i x step; or a list x,y,value on a regular grid. Empty or NaN: no value.",
    };

    private static readonly Option<double[]> Levels = new("--levels")
    {
        Description = "Levels, such as 1,2,5.", HelpName = "L,…", Required = true, Arity = ArgumentArity.ExactlyOne, CustomParser = Numbers.List,
    };

    private static readonly Option<double?> Step = ReadingOptions.Optional("--step", "Spacing of a matrix's nodes; 1 when left out.", 1e-6, 1e6);
    private static readonly Option<string?> Out = new("--out") { Description = "Write lines and bands as GeoJSON in the grid's coordinates.", HelpName = "GEOJSON" };

    public static Command Create(Host host)
    {
        var command = new Command("contour", "Traces lines of equal value on a grid, and measures their lengths and the areas above and below.") { Grid, Levels, Step, Out };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var file = parse.GetValue(Grid)!;
        using var stream = InputFile.Open(file);
        var grid = GridValuesCsv.Read(stream, file, parse.GetValue(Step));
        double[] levels = [.. parse.GetValue(Levels)!.Distinct().Order()];
        var measured = LevelSummary.Of(grid, levels);
        session.Cancel.ThrowIfCancellationRequested();
        var files = new OutputFiles();
        if (parse.GetValue(Out) is { } path)
        {
            using var bytes = new MemoryStream();
            ContourGeoJson.Write(bytes, [.. measured.SelectMany(m => m.Lines)], Isobands.Trace(grid.Nodes, grid.Values, levels), "value");
            files.Add(path, bytes.ToArray());
        }

        var written = files.Commit(session.Cancel);
        session.Document(() => new JsonObject
        {
            ["columns"] = grid.Nodes.Columns, ["rows"] = grid.Nodes.Rows, ["step"] = grid.Nodes.CellMetres,
            ["levels"] = new JsonArray([.. measured.Select(Level)]),
        });
        foreach (var m in measured)
        {
            session.Say(string.Create(CultureInfo.InvariantCulture,
                $"{m.Level}: {m.Lines.Count} lines ({m.Lines.Count(l => l.Closed)} closed), length {m.Length:0.###} ({m.ClosedLength:0.###} closed), area at or above {m.AreaAtOrAbove:0.###}, below {m.AreaBelow:0.###}"));
        }

        foreach (var w in written) session.Say($"Wrote {w}");
    }

    private static JsonObject Level(LevelSummary m) => new()
    {
        ["level"] = m.Level,
        ["lines"] = m.Lines.Count,
        ["closedLines"] = m.Lines.Count(l => l.Closed),
        ["length"] = m.Length,
        ["closedLength"] = m.ClosedLength,
        ["areaAtOrAbove"] = m.AreaAtOrAbove,
        ["areaBelow"] = m.AreaBelow,
        ["paths"] = new JsonArray([.. m.Lines.Select(l => new JsonObject
        {
            ["closed"] = l.Closed, ["length"] = l.Length, ["points"] = new JsonArray([.. l.Points.Select(p => new JsonArray(p.X, p.Y))]),
        })]),
    };
}
