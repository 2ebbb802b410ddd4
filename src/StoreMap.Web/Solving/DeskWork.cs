using System.Globalization;
using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;
using System.Text.Json;
using StoreMap.Fields;
using StoreMap.Plans;
using StoreMap.Sheets;
using StoreMap.Surveys;
using StoreMap.Web.Storage;

namespace StoreMap.Web.Solving;

/// <summary>The desk's long work, called in the background worker: everything goes in and out as text.</summary>
[SupportedOSPlatform("browser")]
internal static partial class DeskWork
{
    private static VisitBench? bench;
    private static WalkBench? walk;
    private static DemoVisit? made;

    /// <summary>The map of the latest visit, or of each.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="lengths">The unit in which lengths are shown.</param>
    /// <param name="visits">A <see cref="DeskInput"/>.</param>
    /// <param name="options">A <see cref="MapOptions"/>.</param>
    [JSExport]
    public static async Task<string> Map(string layout, string lengths, string visits, string options)
    {
        var wish = JsonSerializer.Deserialize(options, DeskJson.Plain.MapOptions)!;
        var (settings, context) = (MapSettings.Of(wish.Full), new SheetContext());
        var study = wish.Locate ? await Bench(layout, lengths).StudyLocated(visits, settings, context) : Bench(layout, lengths).Study(visits, settings, context);
        var answer = study is null ? new MapAnswer([], [], null, [], null) : DeskText.Map(bench!, study, wish);
        if (study is not null) bench!.Keep(study);
        return JsonSerializer.Serialize(answer, DeskJson.Plain.MapAnswer);
    }

    /// <summary>Works out the quick heat map of the latest visit, for the questions that come.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="lengths">The unit in which lengths are shown.</param>
    /// <param name="visits">A <see cref="DeskInput"/>.</param>
    [JSExport]
    public static string Ready(string layout, string lengths, string visits)
    {
        if (Bench(layout, lengths).Study(visits, MapSettings.Live, new SheetContext()) is { } study) bench!.FieldOf(study.Visit, study.FieldSettings);
        return "";
    }

    /// <summary>What is known of a place on the latest visit's map.</summary>
    [JSExport]
    public static string Place(string layout, string lengths, string visits, string full, string x, string y)
    {
        var at = new PlanPoint(Number(x), Number(y));
        var study = Bench(layout, lengths).Study(visits, MapSettings.Of(full == "full"), new SheetContext());
        var answer = study is null ? new PlaceAnswer("", [], at.X, at.Y) : DeskText.Place(bench!, study, at);
        return JsonSerializer.Serialize(answer, DeskJson.Plain.PlaceAnswer);
    }

    /// <summary>The numbers behind the latest visit's map.</summary>
    [JSExport]
    public static string Numbers(string layout, string lengths, string visits)
    {
        var study = Bench(layout, lengths).Study(visits, MapSettings.Live, new SheetContext());
        return JsonSerializer.Serialize(study is null ? new VisitNumbers([], []) : DeskText.Numbers(bench!.Shown, study.Visit), DeskJson.Plain.VisitNumbers);
    }

    /// <summary>Months side by side.</summary>
    [JSExport]
    public static async Task<string> Compare(string layout, string lengths, string visits)
    {
        var study = await Bench(layout, lengths).StudyLocated(visits, MapSettings.Live, new SheetContext());
        if (study is null) return JsonSerializer.Serialize(new CompareAnswer([], [], [], [], [], [], []), DeskJson.Plain.CompareAnswer);
        return JsonSerializer.Serialize(CompareText.Of(bench!, study), DeskJson.Plain.CompareAnswer);
    }

    /// <summary>The findings of a store with what became of them.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="lengths">The unit in which lengths are shown.</param>
    /// <param name="visits">All visits.</param>
    /// <param name="day">Today, such as 2026-08-04.</param>
    [JSExport]
    public static string Findings(string layout, string lengths, string visits, string day)
    {
        var input = JsonSerializer.Deserialize(visits, DeskJson.Plain.DeskInput)!;
        return JsonSerializer.Serialize(FindingText.Of(Bench(layout, lengths), input, DateOnly.ParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture)), DeskJson.Plain.FindingsAnswer);
    }

    /// <summary>Sheets as they are printed.</summary>
    [JSExport]
    public static async Task<string> Sheets(string layout, string visits, string wishes)
    {
        var wish = JsonSerializer.Deserialize(wishes, DeskJson.Plain.SheetWishes)!;
        var context = new SheetContext { Company = wish.Company, Technician = wish.Technician, Language = wish.Language, PlanPaper = PaperSize.Find(wish.Paper) };
        var study = await Bench(layout, wish.Units).StudyLocated(visits, MapSettings.Full, context);
        var sheets = study?.Report(wish.Parts.Aggregate(ReportParts.None, (parts, name) => parts | Enum.Parse<ReportParts>(name))) ?? [];
        if (study is not null) bench!.Keep(study);
        return Written(sheets);
    }

    /// <summary>The walk over a store's probe points.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="lengths">The unit in which lengths are shown.</param>
    /// <param name="wishes">A <see cref="WalkWishes"/>.</param>
    [JSExport]
    public static string Walk(string layout, string lengths, string wishes) =>
        JsonSerializer.Serialize((walk = WalkBench.For(layout, walk)).Answer(Wish(wishes), LengthUnits.FromSymbol(lengths)), DeskJson.Plain.WalkAnswer);

    /// <summary>The walk sheet and its table for an order, in a language.</summary>
    [JSExport]
    public static string WalkSheets(string layout, string wishes, string language, string company)
    {
        walk = WalkBench.For(layout, walk);
        var wish = Wish(wishes);
        return Written(WalkSheet.Draw(walk.Plan, walk.Route(wish.Order, wish.Begin), new SheetContext { Language = language, Company = company }));
    }

    /// <summary>One visit of the demo store.</summary>
    [JSExport]
    public static string DemoDay(string day) => JsonSerializer.Serialize(made = Demo.Visit(day), DeskJson.Plain.DemoVisit);

    /// <summary>As <see cref="Ready"/> for the demo visit made last, which needn't be kept on the device before.</summary>
    [JSExport]
    public static string DemoReady(string layout, string lengths) =>
        Ready(layout, lengths, JsonSerializer.Serialize(new DeskInput([new PackedVisit(made!.Id, made.Started, made.Events)], []), DeskJson.Plain.DeskInput));

    // Lengths: the symbol of the unit in which they are shown; empty for the plan's.
    private static VisitBench Bench(string layout, string lengths) => bench = VisitBench.For(layout, LengthUnits.FromSymbol(lengths), bench, work => new Sink(work));

    private static string Written(IReadOnlyList<Sheet> sheets) => JsonSerializer.Serialize(
        [.. sheets.Select(s => new SheetAnswer(s.Name, s.Title, s.WidthMillimetres, s.HeightMillimetres, s.Svg))], DeskJson.Plain.SheetAnswerArray);

    private static WalkWishes Wish(string text) => JsonSerializer.Deserialize(text, DeskJson.Plain.WalkWishes)!;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    [JSImport("progress", "worker")]
    private static partial void Report(double share, string work);

    // A step of a hundredth at a time: each is a message to the page.
    private sealed class Sink(string work) : IProgress<double>
    {
        private double last = -1;

        public void Report(double value)
        {
            if (value - last < 0.01 && value < 1) return;
            last = value;
            DeskWork.Report(value, work);
        }
    }
}

/// <summary>How the heat map is computed on the desk.</summary>
internal static class MapSettings
{
    /// <summary>While working: coarser cells, the stated values instead of values estimated from the readings, and censored readings settled to
    /// a hundredth of what is not known.</summary>
    public static FieldSettings Live { get; } = new() { CellMetres = 0.5, Estimate = false, Settled = 0.01 };

    /// <summary>As printed, the same as on the command line.</summary>
    public static FieldSettings Full { get; } = new();

    public static FieldSettings Of(bool full) => full ? Full : Live;
}
