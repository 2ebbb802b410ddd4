using System.CommandLine;
using System.CommandLine.Parsing;
using System.Text.Json.Nodes;
using StoreMap.App.Shell;
using StoreMap.Plans;

namespace StoreMap.App.Commands;

/// <summary><c>import</c>: a layout to be completed, from a case list or a plan drawing.</summary>
internal static class ImportCommand
{
    private static readonly Argument<string> Source = new("plan")
    {
        Description = "A case list (*.csv) with the columns tag, kind, lengths (such as 12-12-8), and where known circuit, system, refrigerant, product; or a plan drawing (*.dxf as text, *.svg).",
    };

    private static readonly Option<string> Out = Arguments.OutFile("The layout file to write.", "LAYOUT");

    private static readonly Option<string?> Units = new("--units")
    {
        Description = "Unit of the lengths: m, ft, in or mm. A list is in ft unless said, a DXF in the unit it names; an SVG names none.",
    };

    private static readonly Option<double> PerUnit = ReadingOptions.Number("--per-unit", "How many of --units one user unit of an SVG is.", 1, 1e-6, 1e6);

    private static readonly Option<IReadOnlyDictionary<string, DrawingRole>> Layers = new("--layers")
    {
        Description = $"What layers or blocks of a drawing stand for, such as WALLS=outline,FIXT=open-case. Roles: {KebabNames.All<DrawingRole>()}.",
        HelpName = "NAMES", CustomParser = Roles, DefaultValueFactory = _ => new Dictionary<string, DrawingRole>(),
    };

    private static readonly Option<string?> Name = new("--name") { Description = "Name of the store; the file's name if not given." };
    private static readonly Option<string?> Zone = new("--time-zone") { Description = "The store's time zone, such as America/Chicago." };

    private static readonly Option<bool> Replace = new("--replace") { Description = "Write over a layout that exists." };

    static ImportCommand() => Units.AcceptOnlyFromAmong("m", "ft", "in", "mm");

    public static Command Create(Host host)
    {
        var command = new Command("import", "Makes a layout to be completed, from a case list (schematic, but fit for every later step) or a plan drawing.")
        {
            Source, Units, PerUnit, Layers, Name, Zone, Out, Replace,
        };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var path = parse.GetValue(Source)!;
        using var stream = InputFile.Open(path);
        var document = Read(stream, path, parse);
        session.Warn(document.Warnings);
        using var bytes = new MemoryStream();
        document.Write(bytes);
        var files = new OutputFiles();
        var target = parse.GetValue(Out)!;
        if (File.Exists(target) && !parse.GetValue(Replace))
        {
            throw InputFile.Refused(target, "layout-kept", "This layout exists already and may have been completed by hand. Give another name, or --replace to write over it.");
        }

        files.Add(target, bytes.ToArray());
        var written = files.Commit(session.Cancel);
        var plan = document.Plan;
        session.Document(() => new JsonObject { ["layout"] = written[0], ["id"] = plan.Id, ["fixtures"] = plan.Fixtures.Count });
        session.Say(FormattableString.Invariant($"{plan.Fixtures.Count} fixtures in {plan.Fixtures.Sum(f => f.Sections.Count)} sections")
            + (plan.Schematic ? ", drawn in rows to be moved into place." : ", to be completed: the warnings say with what."));
        session.Say($"Wrote {written[0]}");
    }

    private static LayoutDocument Read(Stream stream, string path, ParseResult parse)
    {
        var units = LengthUnits.FromSymbol(parse.GetValue(Units));
        var name = parse.GetValue(Name) ?? Path.GetFileNameWithoutExtension(path);
        var zone = parse.GetValue(Zone);
        var drawing = new DrawingOptions { Units = units, PerUnit = parse.GetValue(PerUnit), Roles = parse.GetValue(Layers)!, Name = name, TimeZone = zone };
        return Path.GetExtension(path).ToLowerInvariant() switch
        {
            ".dxf" => DrawingImport.ReadDxf(stream, path, drawing),
            ".svg" => DrawingImport.ReadSvg(stream, path, drawing),
            _ => CaseList.Read(stream, path, new CaseListOptions { Units = units ?? LengthUnit.Foot, Name = name, TimeZone = zone }),
        };
    }

    private static Dictionary<string, DrawingRole>? Roles(ArgumentResult result)
    {
        Dictionary<string, DrawingRole> roles = new(StringComparer.OrdinalIgnoreCase);
        foreach (var part in result.Tokens.SelectMany(t => t.Value.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)))
        {
            var equals = part.LastIndexOf('=');
            if (equals <= 0 || KebabNames.Parse<DrawingRole>(part[(equals + 1)..].Trim()) is not { } role)
            {
                result.AddError($"--layers: '{part}' is no NAME=role; roles are {KebabNames.All<DrawingRole>()}.");
                return null;
            }

            roles[part[..equals].Trim()] = role;
        }

        return roles;
    }
}
