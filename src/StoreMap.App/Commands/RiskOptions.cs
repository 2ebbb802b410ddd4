using System.CommandLine;
using System.CommandLine.Parsing;
using StoreMap.App.Shell;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Walking;

namespace StoreMap.App.Commands;

/// <summary>Options of a walk that takes the likeliest places first.</summary>
internal sealed class RiskOptions
{
    private readonly Option<string[]> risk = new("--risk")
    {
        Description = "Likeliest places first, by product, line drops, age and what earlier SURVEYs (or readings) located; they may be left out.",
        HelpName = "SURVEY", Arity = ArgumentArity.ZeroOrMore, AllowMultipleArgumentsPerToken = true,
    };

    private readonly Option<double> growth = ReadingOptions.Number("--risk-growth", "By which share of the shortest walk's length a risk-first walk may be longer.", 0.1, 0, 1);
    private readonly Option<string?> service = Arguments.Service();
    private readonly ReadingOptions reading = new();

    public void AddTo(Command command)
    {
        command.Add(risk);
        command.Add(growth);
        command.Add(service);
        reading.AddTo(command);
        command.Validators.Add(result =>
        {
            if (result.GetValue(service) is not null && !IsAsked(result)) result.AddError("--service goes with --risk.");
        });
    }

    public bool IsAsked(SymbolResult result) => result.GetResult(risk) is { Implicit: false };

    public bool IsAsked(ParseResult parse) => parse.GetResult(risk) is { Implicit: false };

    public double Growth(ParseResult parse) => parse.GetValue(growth);

    /// <summary>The weights of the store's points and the pace of earlier visits, from all that is given.</summary>
    public (RiskWeights Weights, double? Pace) Weights(Session session, ParseResult parse, Store store, WalkingPaths paths)
    {
        var surveys = parse.GetValue(risk) ?? [];
        var file = parse.GetValue(service);
        if (surveys.Length == 0)
        {
            var record = file is null ? null : store.Service(file);
            return (LeakRisks.Of(store.Plan, store.Draft.Points, LeakPriors.From(store.Plan, [], record, DateOnly.MaxValue), record?.Entries.Select(e => e.Date).DefaultIfEmpty().Max()), null);
        }

        var job = new VisitJob(session, store, surveys, reading.Of(parse), file, new SheetContext());
        var weights = LeakRisks.Of(store.Plan, store.Draft.Points, LeakPriors.From(store.Plan, job.Study.Located, job.Study.Record, DateOnly.MaxValue), job.Study.Located[^1].Date);
        return (weights, Forecast.Pace(store.Plan, paths, store.Draft.Points, job.Study.Visits.SelectMany(v => VisitGaps.Of(v.Survey)), new Protocol()));
    }
}
