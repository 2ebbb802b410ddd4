using System.CommandLine;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Plans;

namespace StoreMap.App.Commands;

/// <summary><c>import</c>: a layout to be completed, from a case list.</summary>
internal static class ImportCommand
{
    private static readonly Argument<string> Source = new("list")
    {
        Description = "A case list (*.csv) with the columns tag, kind, lengths (such as 12-12-8), and where known circuit, system, refrigerant, product.",
    };

    private static readonly Option<string> Out = Arguments.OutFile("The layout file to write.", "LAYOUT");

    private static readonly Option<string> Units = new("--units")
    {
        Description = "Unit of the lengths: m, ft, in or mm.", DefaultValueFactory = _ => "ft",
    };

    private static readonly Option<string?> Name = new("--name") { Description = "Name of the store; the list's file name if not given." };
    private static readonly Option<string?> Zone = new("--time-zone") { Description = "The store's time zone, such as America/Chicago." };

    static ImportCommand() => Units.AcceptOnlyFromAmong("m", "ft", "in", "mm");

    public static Command Create(Host host)
    {
        var command = new Command("import", "Makes a layout from a case list: schematic, but fit for every later step.") { Source, Units, Name, Zone, Out };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var path = parse.GetValue(Source)!;
        using var stream = InputFile.Open(path);
        var document = CaseList.Read(stream, path, new CaseListOptions
        {
            Units = LengthUnits.FromSymbol(parse.GetValue(Units))!.Value,
            Name = parse.GetValue(Name) ?? Path.GetFileNameWithoutExtension(path),
            TimeZone = parse.GetValue(Zone),
        });
        session.Warn(document.Warnings);
        using var bytes = new MemoryStream();
        document.Write(bytes);
        var files = new OutputFiles();
        files.Add(parse.GetValue(Out)!, bytes.ToArray());
        var written = files.Commit(session.Cancel);
        var plan = document.Plan;
        session.Document(() => new JsonObject { ["layout"] = written[0], ["id"] = plan.Id, ["fixtures"] = plan.Fixtures.Count });
        session.Say(FormattableString.Invariant($"{plan.Fixtures.Count} fixtures in {plan.Fixtures.Sum(f => f.Sections.Count)} sections, drawn in rows to be moved into place."));
        session.Say($"Wrote {written[0]}");
    }
}
