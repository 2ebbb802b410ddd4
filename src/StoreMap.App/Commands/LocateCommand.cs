using System.CommandLine;
using StoreMap.App.Documents;
using StoreMap.App.Shell;
using StoreMap.Zones;

namespace StoreMap.App.Commands;

/// <summary><c>locate</c>: which fixture leaks, where, which panel first, where to probe next.</summary>
internal static class LocateCommand
{
    private static readonly Argument<string> Layout = Arguments.Layout();
    private static readonly Argument<string[]> Surveys = Arguments.Surveys(1);
    private static readonly Option<string?> Out = Arguments.OutFolder();
    private static readonly ReadingOptions Reading = new();

    public static Command Create(Host host)
    {
        var command = new Command("locate", "Says which case leaks, where along it, which panel to lift first, and where to probe next.")
        {
            Layout, Surveys, Out,
        };
        Reading.AddTo(command);
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var store = Store.Load(parse.GetValue(Layout)!, session);
        var visits = store.Visits(parse.GetValue(Surveys)!, Reading.Of(parse));
        var result = LeakLocator.Locate(store.Plan, visits[^1], [], new LocateSettings(), session.Progress("Locating"), session.Cancel);
        session.Document(() => LocateJson.Of(store.Plan, result));
    }
}
