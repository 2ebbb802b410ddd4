using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace StoreMap.Web.Solving;

/// <summary>A store's visits as the worker gets them.</summary>
/// <param name="Visits">Any number, in any order.</param>
/// <param name="Service">The store's service journal.</param>
public sealed record DeskInput(IReadOnlyList<PackedVisit> Visits, IReadOnlyList<string> Service);

/// <summary>One survey's journal.</summary>
public sealed record PackedVisit(string Survey, DateTimeOffset Started, IReadOnlyList<string> Events);

/// <summary>How a map is wanted.</summary>
/// <param name="WidthMillimetres">Width of the picture; text is as large on it as on paper.</param>
/// <param name="Layers">Names of the layers drawn.</param>
/// <param name="Full">True for the heat map as printed, false for the quick one.</param>
/// <param name="Locate">False to have the picture before the leak zones are worked out.</param>
/// <param name="EachVisit">True for a picture of every visit, false for the latest alone.</param>
/// <param name="Viridis">True for the colours of viridis, false for those of cividis.</param>
public sealed record MapOptions(double WidthMillimetres, string Layers, bool Full, bool Locate, bool EachVisit = false, bool Viridis = false);

/// <summary>The air of a space, ppm.</summary>
public sealed record SpaceNumbers(string Name, double Ppm, double Deviation, int Count, string? Reason);

/// <summary>A reading and what became of it, ppm.</summary>
public sealed record ReadingNumbers(
    string Time, string Place, string Air, string Shown, double Background, double Net, double Deviation, double Detection, double Action, bool Hit, string? Reason);

/// <summary>The numbers behind a visit's map.</summary>
public sealed record VisitNumbers(IReadOnlyList<SpaceNumbers> Spaces, IReadOnlyList<ReadingNumbers> Readings);

/// <summary>A picture and how its places lie on the plan; see the engine's <c>ScreenPicture</c>.</summary>
public sealed record Picture(string Date, string Svg, double Width, double Height, double X, double Y, double Factor);

/// <summary>A step of the colour scale.</summary>
public sealed record ColourStep(string Ppm, string Hex, bool Action);

/// <summary>The map of a visit, or of each.</summary>
public sealed record MapAnswer(
    IReadOnlyList<Picture> Pictures, IReadOnlyList<ColourStep> Levels, Answer? Answer, IReadOnlyList<LookLine> Looked, string? Score);

/// <summary>What is known of a place.</summary>
/// <param name="Place">Where, in words.</param>
/// <param name="Lines">What, in sentences.</param>
/// <param name="X">Plan metres.</param>
/// <param name="Y">Plan metres.</param>
public sealed record PlaceAnswer(string Place, IReadOnlyList<string> Lines, double X, double Y);

/// <summary>A drawn sheet.</summary>
public sealed record SheetAnswer(string Name, string Title, double Width, double Height, string Svg);

/// <summary>A stretch of the walk that is done in one go.</summary>
/// <param name="Id">Id of its group.</param>
/// <param name="Title">Where.</param>
/// <param name="Points">Ids of its points in walking order.</param>
/// <param name="At">Store time by which its first point is read; null without a time to begin.</param>
/// <param name="IsZero">True for the zero, which stays first.</param>
public sealed record WalkStop(string Id, string Title, IReadOnlyList<string> Points, string? At, bool IsZero);

/// <summary>How a walk is wanted.</summary>
/// <param name="Order">Point ids in the order wanted; empty to plan it.</param>
/// <param name="Width">Width of the picture, millimetres.</param>
/// <param name="Begin">Store time of sign-in; null leaves time of day out.</param>
/// <param name="Next">Ids of the points that come next, such as those of the stop where one stands; from the last what is left is planned anew.
/// Empty leaves the order.</param>
/// <param name="Done">Ids of the points done, in their order; with <paramref name="Next"/>.</param>
public sealed record WalkWishes(IReadOnlyList<string> Order, double Width, TimeOnly? Begin, IReadOnlyList<string> Next, IReadOnlyList<string> Done);

/// <summary>A walk: its picture, its stops in order, and what it takes.</summary>
/// <param name="Picture">The picture.</param>
/// <param name="Stops">Its stops in order.</param>
/// <param name="Takes">Points, length and minutes; of what is left when it was planned from where one stands.</param>
/// <param name="Clock">When all is done, waits and hours, a sentence each; empty without a time to begin.</param>
/// <param name="LeftOut">Places with points that can't be reached, in their order.</param>
public sealed record WalkAnswer(Picture Picture, IReadOnlyList<WalkStop> Stops, string Takes, IReadOnlyList<string> Clock, IReadOnlyList<LeftOutPlace> LeftOut);

/// <summary>A place with points that no walk reaches.</summary>
/// <param name="Title">Where.</param>
/// <param name="Points">Which points, in words.</param>
public sealed record LeftOutPlace(string Title, string Points);

/// <summary>What sheets are wanted and what they say of themselves.</summary>
/// <param name="Parts">Names of the engine's <c>ReportParts</c>.</param>
/// <param name="Company">Whose sheets they are.</param>
/// <param name="Technician">Who read; empty for those whom the visits name.</param>
/// <param name="Language">Code of the language.</param>
/// <param name="Paper">Paper of plans; null for the usual.</param>
/// <param name="Units">Symbol of the unit of lengths, with which weights go; empty for the plan's own.</param>
public sealed record SheetWishes(IReadOnlyList<string> Parts, string Company, string Technician, string Language, string? Paper, string Units);

/// <summary>A zone through the months, under its letter on the maps of the months and the comparison sheet.</summary>
public sealed record ZoneRow(string Letter, string Title, string Where, string Change, IReadOnlyList<string> Peaks, string Trend, string? Service, string Note);

/// <summary>A zone's or a fixture's chart through the months.</summary>
/// <param name="Title">Where.</param>
/// <param name="Words">Whether it rises or falls.</param>
/// <param name="Told">All that the chart shows, in a sentence.</param>
/// <param name="Svg">The chart.</param>
public sealed record TrendLine(string Title, string Words, string Told, string Svg);

/// <summary>Months side by side.</summary>
public sealed record CompareAnswer(
    IReadOnlyList<string> Dates, IReadOnlyList<ZoneRow> Zones, IReadOnlyList<TrendLine> Trends, IReadOnlyList<TrendLine> FixtureTrends, IReadOnlyList<string> Sources, IReadOnlyList<string> NotComparable, IReadOnlyList<string> Balances);

/// <summary>What the server is asked to bind as a PDF. Job: an id by which it is asked how far it is.</summary>
public sealed record ReportRequest(IReadOnlyList<string> Surveys, IReadOnlyList<string> Parts, string Company, string Language, string? Paper, string Units, string? Job = null);

/// <summary>How far the server is with a report.</summary>
/// <param name="Work">What it does, in words; null while it binds another first.</param>
/// <param name="Share">How much of that is done, [0, 1].</param>
public sealed record ReportProgress(string? Work, double Share);

/// <summary>One visit of the demo store, as journal entries.</summary>
public sealed record DemoVisit(string Id, DateTimeOffset Started, IReadOnlyList<string> Events);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(DeskInput))]
[JsonSerializable(typeof(PackedVisit[]))]
[JsonSerializable(typeof(MapOptions))]
[JsonSerializable(typeof(MapAnswer))]
[JsonSerializable(typeof(PlaceAnswer))]
[JsonSerializable(typeof(VisitNumbers))]
[JsonSerializable(typeof(SheetWishes))]
[JsonSerializable(typeof(SheetAnswer[]))]
[JsonSerializable(typeof(CompareAnswer))]
[JsonSerializable(typeof(ReportRequest))]
[JsonSerializable(typeof(ReportProgress))]
[JsonSerializable(typeof(WalkAnswer))]
[JsonSerializable(typeof(WalkWishes))]
[JsonSerializable(typeof(DemoVisit))]
[JsonSerializable(typeof(FindingsAnswer))]
internal sealed partial class DeskJson : JsonSerializerContext
{
    private static DeskJson? plain;

    /// <summary>Pictures and journals as they are: what goes between page and worker is put on no page unread, and the marks of which a picture is
    /// full would be six characters each.</summary>
    public static DeskJson Plain => plain ??= new(new JsonSerializerOptions(Default.Options) { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping });
}
