using System.CommandLine;
using System.Text.Json.Nodes;

namespace StoreMap.App.Shell;

/// <summary>Runs a verb and turns whatever happens into words for a person and an exit code.</summary>
internal sealed class Host(TextReader input, TextWriter output, TextWriter error, bool showProgress)
{
    /// <summary>Every verb takes it.</summary>
    public static Option<bool> JsonOption { get; } = new("--json")
    {
        Description = "Print one machine-readable document on standard output, problems too.",
        Recursive = true,
    };

    /// <summary>The same program for a verb that runs others: silent on standard output when a document is to be the only thing there.</summary>
    public Host Quiet(bool quiet) => quiet ? new Host(input, TextWriter.Null, error, false) : this;

    /// <summary>Parses and runs a command line.</summary>
    public int Run(string[] args, CancellationToken cancel)
    {
        var parse = Verbs.All(this).Parse(args);
        if (parse.Errors.Count > 0 && !args.Any(a => a is "--help" or "-h" or "-?"))
        {
            foreach (var problem in parse.Errors) error.WriteLine(problem.Message);
            error.WriteLine($"Try: storemap {(parse.CommandResult.Command is RootCommand ? "" : parse.CommandResult.Command.Name + " ")}--help");
            return ExitCode.WrongUsage;
        }

        var config = new InvocationConfiguration { Output = output, Error = error, EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null };
        return parse.InvokeAsync(config, cancel).GetAwaiter().GetResult();
    }

    /// <summary>Runs the body of a verb.</summary>
    public int Run(ParseResult parse, Action<Session> body, CancellationToken cancel)
    {
        var json = parse.GetValue(JsonOption);
        var session = new Session(input, output, error, json, showProgress && !json, cancel);
        try
        {
            body(session);
            return ExitCode.Done;
        }
        catch (RefusedInputException refused)
        {
            Refuse(session, refused.Problems);
            return ExitCode.RefusedInput;
        }
        catch (OperationCanceledException)
        {
            error.WriteLine("Stopped. Nothing was written.");
            return ExitCode.Cancelled;
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            error.WriteLine($"Could not finish: {failure.Message}");
            return ExitCode.Failure;
        }
    }

    private static void Refuse(Session session, IReadOnlyList<Problem> problems)
    {
        session.Document(() => new JsonObject { ["errors"] = ProblemJson.Array(problems) });
        if (session.Json) return;
        foreach (var p in problems) session.Note($"{(p.Severity == Severity.Error ? "error" : "warning")}: {p}");
        var errors = problems.Count(p => p.Severity == Severity.Error);
        session.Note($"Refused: {errors} {(errors == 1 ? "error" : "errors")}. Nothing was written.");
    }
}
