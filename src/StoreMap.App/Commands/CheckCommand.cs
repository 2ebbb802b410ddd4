using System.CommandLine;
using StoreMap.App.Shell;
using StoreMap.Surveys;

namespace StoreMap.App.Commands;

/// <summary><c>check FILE…</c>: every problem of every file, with its place.</summary>
internal static class CheckCommand
{
    private static readonly Argument<string[]> Files = new("file")
    {
        Arity = ArgumentArity.OneOrMore,
        Description = "Layouts (*.layout.json), readings, logs, marks and response tables (*.csv), surveys (*.survey.json), service records (*.service.json). "
            + "A layout among them gives the places and ids that the others are checked against.",
    };

    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("check", "Validates files and says every error with its place. Writes nothing.") { Files };
        Reading.AddTo(command);
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse.GetValue(Files)!, Reading.Of(parse)), cancel)));
        return command;
    }

    private static void Run(Session session, string[] files, SurveyReadOptions options)
    {
        var problems = FileChecks.All(files, options);
        if (problems.Any(p => p.Severity == Severity.Error)) throw new RefusedInputException(problems);
        session.Document(() => new System.Text.Json.Nodes.JsonObject { ["errors"] = ProblemJson.Array([]), ["warnings"] = ProblemJson.Array(problems) });
        session.Warn(session.Json ? [] : problems);
        session.Say(files.Length == 1 ? "1 file checked, no error." : FormattableString.Invariant($"{files.Length} files checked, no error."));
    }
}
