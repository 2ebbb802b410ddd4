using StoreMap.App.Shell;
using StoreMap.Data;
using StoreMap.History;
using StoreMap.Plans;
using StoreMap.Raster;
using StoreMap.Routing;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Zones;

namespace StoreMap.App.Serving;

/// <summary>The customer's pack, bound on the server from what it holds.</summary>
internal static class ReportApi
{
    private const int MostSurveys = 60;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/stores/{store}/report", Bind).WithSummary("The report of some visits as a PDF.");
        api.MapGet("/stores/{store}/report/{job}", (string store, string job, ReportJobs jobs) => jobs.Of(store, job) is { } progress ? Results.Ok(progress) : Results.NoContent())
            .WithSummary("How far a report being bound is, by the id given as its job; nothing when none is.");
    }

    private static async Task<IResult> Bind(string store, ReportWish wish, Layouts layouts, Journal journal, Findings findings, ReportJobs jobs, CancellationToken cancel)
    {
        if (wish.Job is { } id && !JournalEvent.IsId(id)) return Bad("job", "A job's id has 1 to 64 of A-Z, a-z, 0-9, dot, underscore and dash.");
        if (layouts.Latest(store) is not { } layout) return Results.NotFound(new ApiProblem("store", "There is no such store."));
        if (wish.Surveys is not { Count: > 0 and <= MostSurveys } named) return Bad("surveys", $"Name 1 to {MostSurveys} surveys.");
        var rows = named.Select(id => id is null ? null : journal.Survey(id)).ToList();
        if (rows.Any(r => r?.Store != store)) return Bad("surveys", "One of the surveys is not here or belongs to another store. Send it first.");
        if (wish.Units is { Length: > 0 } unit && LengthUnits.FromSymbol(unit) is null) return Bad("units", "Units are ft or m, or left out for the plan's own.");
        var parts = ReportParts.None;
        foreach (var name in wish.Parts ?? [])
        {
            if (!Enum.TryParse<ReportParts>(name, out var part) || !Enum.IsDefined(part)) return Bad("parts", "One of the parts is unknown.");
            parts |= part;
        }

        jobs.Tell(store, wish.Job, new ReportProgress(null, 0));
        try
        {
            return await jobs.InTurn(() => Draw(layout, [.. rows.OfType<SurveyRow>()], journal, findings, wish, parts == ReportParts.None ? ReportParts.All : parts, jobs, cancel), cancel)
                ?? Results.Json(new ApiProblem("busy", "Too many reports wait to be bound already. Ask again in a minute."), statusCode: StatusCodes.Status503ServiceUnavailable);
        }
        catch (RefusedInputException refused)
        {
            return Results.BadRequest(new { errors = ProblemJson.Array(refused.Problems) });
        }
        finally
        {
            jobs.Tell(store, wish.Job, null);
        }
    }

    private static IResult Draw(LayoutRow layout, IReadOnlyList<SurveyRow> rows, Journal journal, Findings findings, ReportWish wish, ReportParts parts, ReportJobs jobs, CancellationToken cancel)
    {
        var plan = LayoutDocument.Parse(layout.Document).Plan;
        var points = ProbePlanner.Draft(plan, new Protocol()).Points;
        var states = rows.Select(r => SurveysApi.State(r, plan, journal)).ToList();
        var visits = states.Select(s => (State: s, JournalReplay.Read(s, plan, points).Survey)).ToLookup(v => DateOnly.FromDateTime(v.Survey.Start.DateTime));
        List<Survey> surveys = [.. visits.SelectMany(v => v).Select(v => v.Survey).Where(s => s.Readings.Count > 0)];
        if (surveys.Count == 0) return Bad("readings", "These visits have no reading.");
        ServiceRecord? record = wish.Service is null ? FindingsApi.Record(plan, findings, journal).Record : ServiceRecordFile.Parse(wish.Service, null, plan).Record;
        if (record.Entries.Count + record.Movements.Count == 0) record = null;
        var context = new SheetContext { Company = wish.Company ?? "", Language = wish.Language ?? "en", PlanPaper = PaperSize.Find(wish.Paper) };
        var study = new VisitStudy(plan.ShownIn(LengthUnits.FromSymbol(wish.Units)), points, [.. Visits.ByDate(surveys).Select(s => NetSurveyBuilder.Build(plan, s))], record, context, work => jobs.Sink(layout.Store, wish.Job, work), cancel)
        {
            Checked = visits.SelectMany(day => day.SelectMany(v => v.State.Panels).Select(p => (day.Key, Panel: p))).ToLookup(p => p.Key, p => PanelCheck.Of(p.Panel)),
            Journals = visits.SelectMany(day => day.Select(v => (day.Key, v.State))).ToLookup(v => v.Key, v => v.State),
        };
        var sheets = study.Report(parts);
        var info = SheetFiles.Info(ReportPages.Title(plan, study.Context), study.Context, study.Visit.Survey.Start);
        var pdf = SheetRaster.ToPdf(sheets, info, jobs.Sink(layout.Store, wish.Job, $"Binding {sheets.Count} sheets"), cancel);
        return Results.File(pdf, "application/pdf", $"{plan.Id}-report.pdf");
    }

    private static IResult Bad(string rule, string message) => Results.BadRequest(new ApiProblem(rule, message));
}

/// <summary>What a client asks for. Service: the record that earlier clients sent along; null for the server's own. Job: an id of the
/// client's own by which it asks how far the report is; null to ask nothing.</summary>
internal sealed record ReportWish(
    IReadOnlyList<string?>? Surveys, string? Service, IReadOnlyList<string>? Parts, string? Company, string? Language, string? Paper, string? Units, string? Job = null);
