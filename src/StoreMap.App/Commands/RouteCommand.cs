using System.CommandLine;
using System.CommandLine.Parsing;
using System.Diagnostics;
using System.Globalization;
using StoreMap.App.Documents;
using StoreMap.App.Shell;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Walking;

namespace StoreMap.App.Commands;

/// <summary><c>route</c>: probe points, their order, the minutes, and the walk sheet.</summary>
internal static class RouteCommand
{
    private static readonly Argument<string> Layout = Arguments.Layout();
    private static readonly Option<string?> Points = new("--points") { Description = "A list id,x,y: a tour over those points alone, closed unless --open or --start.", HelpName = "CSV" };
    private static readonly Option<string?> Start = new("--start") { Description = "Id of the point to start from; the end is free. With --points.", HelpName = "ID" };
    private static readonly Option<bool> Open = new("--open") { Description = "Do not return to the first point." };
    private static readonly Option<string?> System = new("--system") { Description = "Only fixtures and equipment of one system, likeliest places first.", HelpName = "ID" };
    private static readonly Option<string?> Keep = new("--keep") { Description = "A route.json walked before: its order is kept unless a change saves more than --least-saving of the minutes.", HelpName = "ROUTE" };
    private static readonly Option<double> LeastSaving = ReadingOptions.Number("--least-saving", "What a change to a known order must save to be made, as a share.", 0.05, 0, 1);
    private static readonly Option<TimeOnly?> Begin = new("--begin")
    {
        Description = "Store time of sign-in, such as 06:00: gives the clock, keeps to hours of entry, and fits checks into defrosts that stop the fans.", HelpName = "HH:MM", CustomParser = Hours,
    };

    private static readonly Option<double> Clearance = ReadingOptions.Number("--clearance", "Distance the walker keeps from what blocks, metres.", 0.3, 0, 5);
    private static readonly Option<long?> Effort = new("--effort") { Description = "Search steps; the same effort gives the same route.", HelpName = "N" };
    private static readonly Option<double?> Seconds = new("--seconds") { Description = "Cut the search short after so many seconds.", HelpName = "S" };
    private static readonly Option<string?> Out = Arguments.OutFolder();
    private static readonly RiskOptions Risk = new();
    private static readonly ReplanOptions Replan = new();
    private static readonly SheetOptions Sheets = new();

    public static Command Create(Host host)
    {
        var command = new Command("route", "Plans the probe walk: where to hold the probe, in what order, and how long it takes.")
        {
            Layout, Points, Start, Open, System, Keep, LeastSaving, Begin, Clearance, Effort, Seconds, Out,
        };
        Risk.AddTo(command);
        Replan.AddTo(command);
        Sheets.AddTo(command);
        command.Validators.Add(result =>
        {
            if (result.GetValue(Effort) is < 0 || result.GetValue(Seconds) is <= 0) result.AddError("--effort must be 0 or more and --seconds above 0.");
            if (result.GetResult(Begin) is not null && (result.GetValue(Points) is not null || Replan.IsAsked(result))) result.AddError("--begin goes with neither --points nor --replan.");
            if (result.GetValue(Start) is not null && result.GetValue(Points) is null) result.AddError("--start goes with --points.");
            if (result.GetValue(System) is not null && result.GetValue(Points) is not null) result.AddError("--system does not go with --points.");
            if (Risk.IsAsked(result) && (result.GetValue(Points) is not null || result.GetValue(Keep) is not null)) result.AddError("--risk goes with neither --points nor --keep.");
            if (Replan.IsAsked(result) && (Risk.IsAsked(result) || result.GetResult(Points) is not null || result.GetResult(System) is not null || result.GetResult(Keep) is not null || result.GetValue(Open)))
                result.AddError("--replan keeps the order of its route: it goes with none of --risk, --points, --system, --keep, --open.");
        });
        command.SetAction((parse, cancel) => Task.FromResult(host.Run(parse, session => Run(session, parse), cancel)));
        return command;
    }

    private static void Run(Session session, ParseResult parse)
    {
        var store = Store.Load(parse.GetValue(Layout)!, session);
        var plan = store.Plan;
        var paths = new WalkingPaths(FreeFloor.Build(plan, parse.GetValue(Clearance)), cancellation: session.Cancel);
        var route = Replan.IsAsked(parse)
            ? Replan.Run(session, parse, store, paths, parse.GetValue(LeastSaving))
            : Planned(session, parse, store, paths);
        session.Warn(route.Warnings);
        var files = new OutputFiles();
        var sheets = Sheets.Of(parse);
        if (parse.GetValue(Out) is { } folder)
        {
            files.Add(Path.Combine(folder, "route.json"), Session.Bytes(RouteJson.Of(route, plan.Units)));
            SheetFiles.Add(files, folder, WalkSheet.Draw(plan, route, sheets), SheetFiles.Info("", sheets, default));
        }

        var written = files.Commit(session.Cancel);
        session.Document(() => RouteJson.Of(route, plan.Units));
        foreach (var line in RouteWords.Of(plan, route)) session.Say(line);
        foreach (var file in written) session.Say($"Wrote {file}");
    }

    private static Route Planned(Session session, ParseResult parse, Store store, WalkingPaths paths)
    {
        var request = new RouteRequest
        {
            Start = parse.GetValue(Start),
            Closed = !parse.GetValue(Open) && parse.GetValue(Start) is null,
            Keep = parse.GetValue(Keep) is { } earlier ? ReplanOptions.Read(earlier).Order : null,
            LeastSaving = parse.GetValue(LeastSaving),
            Budget = Budget(session, parse),
        };
        if (parse.GetValue(Points) is { } list)
        {
            using var stream = InputFile.Open(list);
            return RoutePlanner.Over(store.Plan, paths, RoutePoints.Read(stream, list, store.Plan), request);
        }

        var system = parse.GetValue(System);
        var draft = Of(store.Plan, store.Draft, system);
        // An earlier order of one system is kept like any other.
        var first = Risk.IsAsked(parse) || (system is not null && request.Keep is null);
        var (weights, pace) = Risk.Weights(session, parse, store, paths);
        request = request with
        {
            Begin = parse.GetValue(Begin), ExpectedHits = draft.Points.Sum(p => weights.At(p.Id)), Pace = pace, Risk = first ? weights : null,
            RiskGrowth = Risk.Growth(parse),
        };
        return RoutePlanner.Plan(store.Plan, paths, draft, request);
    }

    private static TimeOnly? Hours(ArgumentResult result)
    {
        if (result.Tokens.Count == 1 && TimeOnly.TryParseExact(result.Tokens[0].Value, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)) return time;
        result.AddError("--begin must be hours and minutes, such as 06:00.");
        return null;
    }

    private static TourBudget Budget(Session session, ParseResult parse)
    {
        var budget = new TourBudget { Effort = parse.GetValue(Effort), Progress = session.Progress("Routing"), Cancel = session.Cancel };
        if (parse.GetValue(Seconds) is not { } cap) return budget;
        var clock = Stopwatch.StartNew();
        return budget with { OutOfTime = () => clock.Elapsed.TotalSeconds > cap };
    }

    private static ProbeDraft Of(Plan plan, ProbeDraft draft, string? system)
    {
        if (system is null) return draft;
        if (plan.Systems.All(s => s.Id != system))
        {
            throw new RefusedInputException([new Problem(Severity.Error, null, system, "system", system, "known-system",
                $"The layout has no system {system}. It has: {string.Join(", ", plan.Systems.Select(s => s.Id))}.")]);
        }

        return draft.OfSystem(plan, system);
    }
}
