using System.CommandLine;
using StoreMap.App.Shell;

namespace StoreMap.App.Commands;

/// <summary>What the verbs that work on a store's visits have in common: the layout, the surveys, the service record, how readings are
/// read, and what sheets say.</summary>
internal sealed class VisitVerb(int leastSurveys)
{
    private readonly Argument<string> layout = Arguments.Layout();
    private readonly Argument<string[]> surveys = Arguments.Surveys(leastSurveys);
    private readonly Option<string?> service = Arguments.Service();
    private readonly ReadingOptions reading = new();
    private readonly SheetOptions sheets = new();

    /// <summary>Makes the verb.</summary>
    /// <param name="host">The program.</param>
    /// <param name="name">Its name.</param>
    /// <param name="description">What it does, in a sentence.</param>
    /// <param name="run">Its work.</param>
    /// <param name="own">Options of its own.</param>
    public Command Create(Host host, string name, string description, Action<Session, ParseResult, VisitJob> run, params ReadOnlySpan<Option> own)
    {
        var command = new Command(name, description) { layout, surveys, service };
        foreach (var option in own) command.Add(option);
        reading.AddTo(command);
        sheets.AddTo(command);
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => run(session, parse, Job(session, parse)), cancel)));
        return command;
    }

    /// <summary>The last survey named, for problems of all of them.</summary>
    public string LastSurvey(ParseResult parse) => parse.GetValue(surveys)![^1];

    private VisitJob Job(Session session, ParseResult parse) =>
        new(session, parse.GetValue(layout)!, parse.GetValue(surveys)!, reading.Of(parse), parse.GetValue(service), sheets.Of(parse));
}
