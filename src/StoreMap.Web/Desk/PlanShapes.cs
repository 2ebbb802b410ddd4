using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Editing;

namespace StoreMap.Web.Desk;

/// <summary>An element of a layout being drawn, as the screen shows it. Coordinates in the layout's unit, y up.</summary>
/// <param name="Id">Its id.</param>
/// <param name="List">Its list.</param>
/// <param name="Title">What people call it.</param>
/// <param name="Ring">Its outline; empty for a place.</param>
/// <param name="Lines">Fronts and doorways.</param>
/// <param name="Middle">Middle of its box.</param>
/// <param name="Box">Its box.</param>
public sealed record PlanShape(
    string Id, string List, string Title, IReadOnlyList<(double X, double Y)> Ring, IReadOnlyList<IReadOnlyList<(double X, double Y)>> Lines,
    (double X, double Y) Middle, (double X0, double Y0, double X1, double Y1) Box);

/// <summary>Takes a layout's JSON apart for the screen. It is read as it stands, also while it has errors.</summary>
internal static class PlanShapes
{
    // Of the way from a case's middle to its back.
    private const double BackShare = 0.8;

    public static IReadOnlyList<PlanShape> Of(JsonObject root) =>
        [.. LayoutElementsJson.Lists.Where(l => l != "pipes").SelectMany(list => (root[list] as JsonArray ?? []).OfType<JsonObject>().Select(e => Of(list, e))).OfType<PlanShape>()];

    /// <summary>Points of a field.</summary>
    public static IReadOnlyList<(double X, double Y)> Points(JsonNode? field) =>
        field is JsonArray points ? [.. points.OfType<JsonArray>().Where(p => p.Count == 2).Select(p => ((double)p[0]!, (double)p[1]!))] : [];

    /// <summary>Corners and ends of all shapes but some, to snap to.</summary>
    public static IReadOnlyList<(double X, double Y)> Ends(IEnumerable<PlanShape> shapes, JsonObject root) =>
        [.. shapes.SelectMany(s => s.Ring), .. Points(root["outline"])];

    /// <summary>The smallest shape at a point; null when there is none.</summary>
    public static PlanShape? At(IReadOnlyList<PlanShape> shapes, double x, double y, double reach) => shapes
        .Where(s => x >= s.Box.X0 - reach && x <= s.Box.X1 + reach && y >= s.Box.Y0 - reach && y <= s.Box.Y1 + reach)
        .MinBy(s => (s.Box.X1 - s.Box.X0) * (s.Box.Y1 - s.Box.Y0));

    /// <summary>Just inside the backs of cases, in the middle of them all: where their lines mostly come down.</summary>
    /// <returns>Null where there is no case among the shapes.</returns>
    public static (double X, double Y)? InsideBacks(IEnumerable<PlanShape> shapes)
    {
        var backs = shapes.Where(s => s.List == "fixtures" && s.Lines.Count > 0)
            .Select(s => (X: s.Middle.X + (BackShare * (s.Middle.X - s.Lines[0].Average(p => p.X))), Y: s.Middle.Y + (BackShare * (s.Middle.Y - s.Lines[0].Average(p => p.Y))))).ToList();
        return backs.Count == 0 ? null : (backs.Average(b => b.X), backs.Average(b => b.Y));
    }

    public static string Svg(IEnumerable<(double X, double Y)> points) => string.Join(' ', points.Select(p => $"{N(p.X)},{N(-p.Y)}"));

    public static string N(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>Tells that a new element of one's own got another id, since somebody else's new one has it.</summary>
    /// <param name="root">The layout that holds both.</param>
    /// <param name="renamed">Its ids.</param>
    public static string Renamed(JsonObject root, (string From, string To) renamed)
    {
        string Name(string id) => new LayoutElementsJson(root).Find([id]) is [var (_, element), ..] ? Title(element) : id;
        var (mine, other) = (Name(renamed.To), Name(renamed.From));
        return $"{(mine == renamed.To ? $"Your new {renamed.From} is {mine} now" : $"Your new {mine} has another id now")}, since the other's new {other} has that id; readings you took on yours before stand under {other}. ";
    }

    private static string Title(JsonObject e) => ((string?)e["tag"] ?? (string?)e["id"] ?? "") + ((string?)e["name"] is { } name ? $" {name}" : "");

    private static PlanShape? Of(string list, JsonObject e)
    {
        if (LayoutElementsJson.Box([e]) is not { } box) return null;
        var lines = new List<IReadOnlyList<(double X, double Y)>> { Points(e["front"]), Points(e["opening"]) };
        if (e["openings"] is JsonArray openings) lines.AddRange(openings.Select(Points));
        var id = (string?)e["id"] ?? "";
        return new PlanShape(id, list, Title(e), Points(e["outline"]), [.. lines.Where(l => l.Count > 1)], ((box.X0 + box.X1) / 2, (box.Y0 + box.Y1) / 2), box);
    }
}
