using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using StoreMap.App.Shell;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Walking;

namespace StoreMap.App.Commands;

/// <summary>Options of a walk replanned on the way.</summary>
internal sealed class ReplanOptions
{
    private readonly Option<string?> replan = new("--replan") { Description = "A route.json under way: plans what is left from where you stand, its order kept.", HelpName = "ROUTE" };
    private readonly Option<string?> at = new("--at") { Description = "Where you stand: x,y in the layout's unit. With --replan.", HelpName = "X,Y" };
    private readonly Option<string?> done = new("--done") { Description = "Ids of points, fixtures, equipment or rooms done, with commas. With --replan.", HelpName = "IDS" };
    private readonly Option<string?> unreachable = new("--unreachable") { Description = "Ids of what can't be reached today, with commas. With --replan.", HelpName = "IDS" };
    private readonly Option<string?> add = new("--add") { Description = "A list id,x,y of points to add, each where it costs least. With --replan.", HelpName = "CSV" };
    private readonly Option<string[]> closeIn = new("--close-in")
    {
        Description = "A hit to close in on: a fixture, or fixture,distance along its front in the layout's unit. May be given again. With --replan.", HelpName = "PLACE", Arity = ArgumentArity.ZeroOrMore,
    };

    public void AddTo(Command command)
    {
        Option[] others = [at, done, unreachable, add, closeIn];
        command.Add(replan);
        foreach (var option in others) command.Add(option);
        command.Validators.Add(result =>
        {
            if (IsAsked(result))
            {
                if (result.GetValue(at) is null) result.AddError("--replan needs --at x,y: where you stand.");
            }
            else
            {
                foreach (var option in others.Where(o => result.GetResult(o) is { Implicit: false })) result.AddError($"{option.Name} goes with --replan.");
            }

            if (result.GetValue(at) is { } text && Place(text) is null) result.AddError($"--at must be two numbers with a comma, such as 12.5,40; it is \"{text}\".");
        });
    }

    public bool IsAsked(SymbolResult result) => result.GetResult(replan) is not null;

    public bool IsAsked(ParseResult parse) => parse.GetResult(replan) is not null;

    /// <summary>Reads a route's document.</summary>
    public static EarlierRoute Read(string path)
    {
        using var stream = InputFile.Open(path);
        return EarlierRoute.Read(stream, path);
    }

    /// <summary>Replans.</summary>
    public Route Run(Session session, ParseResult parse, Store store, WalkingPaths paths, double leastSaving)
    {
        var unit = store.Plan.Units.InMetres();
        var here = Place(parse.GetValue(at)!)!.Value;
        return RouteReplanner.Replan(store.Plan, paths, store.Draft, Read(parse.GetValue(replan)!), new ReplanRequest
        {
            At = here * unit, Done = Ids(parse.GetValue(done)), Unreachable = Ids(parse.GetValue(unreachable)), Added = Added(parse, store),
            LeastSaving = leastSaving, Cancel = session.Cancel,
        });
    }

    private List<IReadOnlyList<ProbePoint>> Added(ParseResult parse, Store store)
    {
        var added = (parse.GetValue(closeIn) ?? []).Select(place => CloseIn(place, store.Plan)).ToList();
        if (parse.GetValue(add) is not { } list) return added;
        using var stream = InputFile.Open(list);
        added.AddRange(RoutePoints.Read(stream, list, store.Plan).Select(p => (IReadOnlyList<ProbePoint>)[p]));
        return added;
    }

    private static IReadOnlyList<ProbePoint> CloseIn(string place, Plan plan)
    {
        var comma = place.IndexOf(',', StringComparison.Ordinal);
        var id = comma < 0 ? place : place[..comma];
        var along = 0.0;
        var number = comma < 0 || double.TryParse(place[(comma + 1)..], NumberStyles.Float, CultureInfo.InvariantCulture, out along);
        if (plan.FindFixture(id) is { } fixture && number && double.IsFinite(along) && (comma >= 0 || fixture.Front is null))
            return ProbePlanner.CloseIn(plan, fixture, along * plan.Units.InMetres(), new Protocol());
        throw new RefusedInputException([new Problem(Severity.Error, null, id, "close-in", place, "close-in",
            $"{place} is no place to close in on: give the id of a walk-in, or of a case with the distance along its front in {plan.Units.Symbol()}, such as C3,12.5.")]);
    }

    private static List<string> Ids(string? list) => [.. (list ?? "").Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)];

    private static PlanPoint? Place(string text)
    {
        var parts = text.Split(',');
        return parts.Length == 2 && Number(parts[0]) is { } x && Number(parts[1]) is { } y ? new PlanPoint(x, y) : null;
    }

    private static double? Number(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && Math.Abs(value) < 1e6 ? value : null;
}
