using System.Runtime.InteropServices.JavaScript;
using System.Text.Json;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Web.Solving;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Desk;

/// <summary>The store that a desk page works on, with its visits as the worker takes them.</summary>
public sealed record DeskStore(StoreRecord Record, Plan Plan, IReadOnlyList<SurveyRecord> Surveys)
{
    private static bool faces;
    private static (string Document, Plan Plan)? parsed;

    /// <summary>Opens a store; null when this device has none of that id.</summary>
    public static async Task<DeskStore?> Open(LocalStore store, string id)
    {
        if (await store.Store(id) is not { } record) return null;
        if (!faces)
        {
            // The sheets' own face, so that the screen shows what the paper will.
            faces = true;
            Browser.AddFace(Faces.Family, "400", Faces.RegularFile.ToArray());
            Browser.AddFace(Faces.Family, "600", Faces.SemiBoldFile.ToArray());
        }

        return new DeskStore(record, PlanOf(record), [.. (await store.Surveys()).Where(s => s.Store == id)]);
    }

    /// <summary>The plan of a store, read once as long as it stays the same: one goes from page to page.</summary>
    public static Plan PlanOf(StoreRecord record) => PlanOf(record.Document);

    /// <summary>The plan of a layout.</summary>
    public static Plan PlanOf(string document)
    {
        if (parsed is { } last && last.Document == document) return last.Plan;
        var plan = LayoutDocument.Reread(document).Plan;
        parsed = (document, plan);
        return plan;
    }

    /// <summary>Some visits as the worker takes them, a <see cref="DeskInput"/>.</summary>
    public Task<string> Pack(IEnumerable<SurveyRecord> surveys) =>
        Browser.Pack(JsonSerializer.Serialize([.. surveys.Select(s => new PackedVisit(s.Id, s.Started, []))], DeskJson.Plain.PackedVisitArray), Record.Id);

    /// <summary>A visit and those before it, which tell what was known then.</summary>
    public IEnumerable<SurveyRecord> UpTo(SurveyRecord survey) => Surveys.Where(s => s.Started <= survey.Started);

    /// <summary>A visit and those before it of its day, which are one with it.</summary>
    public IEnumerable<SurveyRecord> SameDay(SurveyRecord survey) => UpTo(survey).Where(s => s.Started.Date == survey.Started.Date);

    /// <summary>What went wrong in the worker, for a person.</summary>
    public static string Why(JSException e) => e.Message.Replace("Error: ", "", StringComparison.Ordinal);
}
