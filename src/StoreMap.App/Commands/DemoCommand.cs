using System.CommandLine;
using System.Reflection;
using System.Text.Json.Nodes;
using StoreMap.App.Documents;
using StoreMap.App.Shell;

namespace StoreMap.App.Commands;

/// <summary><c>demo</c>: the whole job on the invented store, by the same verbs that a user would type.</summary>
internal static class DemoCommand
{
    private const string Prefix = "demo/";

    private static readonly Option<string> Out = new("--out")
    {
        Description = "Folder for the store's files and the sheets.", HelpName = "DIR", DefaultValueFactory = _ => "storemap-demo",
    };

    public static Command Create(Host host)
    {
        var command = new Command("demo", "Does the whole job on the demo store: route, log, map, locate, compare, report.") { Out };
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(host, session, parse.GetValue(Out)!), cancel)));
        return command;
    }

    private static void Run(Host host, Session session, string folder)
    {
        var files = new OutputFiles();
        var assembly = Assembly.GetExecutingAssembly();
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n.StartsWith(Prefix, StringComparison.Ordinal)).Order(StringComparer.Ordinal))
        {
            using var stream = assembly.GetManifestResourceStream(name)!;
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            files.Add(Path.Combine(folder, "store", name[Prefix.Length..]), bytes.ToArray());
        }

        files.Commit(session.Cancel);
        string Store(string name) => Path.Combine(folder, "store", name);
        var (layout, june, july, august) = (Store("tern-hollow.layout.json"), Store("2026-06-09.readings.csv"), Store("2026-07-07.readings.csv"), Store("2026-08-04.survey.json"));
        var service = Store("tern-hollow.service.json");
        string[] signed = ["--company", "Brackenlow Cold Service", "--technician", "M. Ostrander"];
        string[][] steps =
        [
            ["check", layout, june, july, service],
            ["route", layout, "--out", Path.Combine(folder, "route"), .. signed],
            ["log", layout, Store("2026-08-04.log.csv"), "--marks", Store("2026-08-04.marks.csv"), "--delay", "5", "--t90", "5", "--out", august],
            ["map", layout, june, july, august, "--service", service, "--out", Path.Combine(folder, "map"), .. signed],
            ["locate", layout, june, july, august, "--service", service, "--out", Path.Combine(folder, "locate"), .. signed],
            ["compare", layout, june, july, august, "--service", service, "--out", Path.Combine(folder, "compare"), .. signed],
            ["report", layout, june, july, august, "--service", service, "--out", Path.Combine(folder, "report.pdf"), .. signed],
        ];
        foreach (var step in steps)
        {
            session.Say("");
            session.Say("> storemap " + string.Join(' ', step.Select(part => part.Contains(' ', StringComparison.Ordinal) ? $"\"{part}\"" : part)));
            var code = host.Quiet(session.Json).Run(step, session.Cancel);
            if (code == ExitCode.Cancelled) throw new OperationCanceledException(session.Cancel);
            if (code != ExitCode.Done) throw new IOException($"The step {step[0]} ended with {code}.");
        }

        var sheets = Directory.GetFiles(folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal).ToList();
        session.Document(() => new JsonObject { ["files"] = UnitsOut.Strings(sheets) });
        session.Say("");
        session.Say($"All of it is in {folder}. The readings are simulated and the store is invented; what really leaked is listed in store/truth.md.");
    }
}
