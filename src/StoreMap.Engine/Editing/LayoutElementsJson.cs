using System.Globalization;
using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>The elements of a layout's JSON by id, and their coordinates in the file's unit.</summary>
public sealed class LayoutElementsJson
{
    /// <summary>Lists whose elements have a place of their own, in the order in which they are drawn.</summary>
    public static readonly IReadOnlyList<string> Lists = ["rooms", "pits", "obstacles", "fixtures", "drops", "entrances", "equipment", "pipes"];

    private const int Decimals = 4;
    private static readonly string[] Points = ["outline", "front", "back", "opening", "coils", "path"];
    private static readonly Dictionary<string, string> Letters = new()
    {
        ["fixtures"] = "C", ["rooms"] = "R", ["obstacles"] = "G", ["pits"] = "P", ["drops"] = "D", ["entrances"] = "E", ["equipment"] = "Q", ["pipes"] = "L",
    };

    /// <summary>Takes up a layout's JSON; changes are made in it.</summary>
    public LayoutElementsJson(JsonObject root) => Root = root;

    /// <summary>The layout.</summary>
    public JsonObject Root { get; }

    /// <summary>The element with an id and the list it stands in; null when there is none.</summary>
    public (string List, JsonObject Element)? Find(string id)
    {
        foreach (var list in Lists)
        {
            foreach (var node in Of(list))
            {
                if (node is JsonObject element && element["id"].Text() == id) return (list, element);
            }
        }

        return null;
    }

    /// <summary>The elements of some ids that are there.</summary>
    public IReadOnlyList<(string List, JsonObject Element)> Find(IEnumerable<string> ids) => [.. ids.Select(Find).OfType<(string, JsonObject)>()];

    /// <summary>True when a fixture has a tag, upper and lower case being one; its id is its tag where it has none.</summary>
    /// <param name="tag">The tag.</param>
    /// <param name="except">Id of a fixture that does not count; null for none.</param>
    public bool HasTag(string tag, string? except = null) => Of("fixtures").OfType<JsonObject>().Any(f =>
        f["id"].Text() != except && string.Equals(f["tag"].Text() ?? f["id"].Text(), tag.Trim(), StringComparison.OrdinalIgnoreCase));

    /// <summary>Adds an element at the end of its list, under the next free id when it has none.</summary>
    /// <returns>Its id.</returns>
    public string Add(string list, JsonObject element)
    {
        var id = NextId(list);
        element.Remove("id");
        element.Insert(0, "id", id);
        if (Root[list] is not JsonArray array) Root[list] = array = [];
        array.Add((JsonNode)element);
        return id;
    }

    /// <summary>Takes an element out, and what refers to it.</summary>
    public void Remove(string id)
    {
        if (Find(id) is not var (list, element)) return;
        Root[list]!.AsArray().Remove(element);
        foreach (var holder in Of("drops").Concat(Of("pits")).OfType<JsonObject>())
        {
            if (holder["fixtures"] is not JsonArray fixtures) continue;
            foreach (var reference in fixtures.Where(f => f.Text() == id).ToList()) fixtures.Remove(reference);
        }
    }

    /// <summary>Puts every coordinate of an element through a map, rounded to a ten-thousandth of the unit.</summary>
    public static void Map(JsonObject element, Func<double, double, (double X, double Y)> map)
    {
        foreach (var field in Points)
        {
            if (element[field] is JsonArray points) element[field] = Mapped(points, map);
        }

        if (element["openings"] is JsonArray openings) element["openings"] = new JsonArray([.. openings.Select(o => (JsonNode)Mapped(o!.AsArray(), map))]);
        if (element["at"] is JsonArray { Count: 2 } at) element["at"] = Mapped([at.DeepClone()], map)[0]!.DeepClone();
    }

    /// <summary>The upright box round some elements; null when they have no coordinates.</summary>
    public static (double X0, double Y0, double X1, double Y1)? Box(IEnumerable<JsonObject> elements)
    {
        var (x0, y0, x1, y1) = (double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);
        foreach (var element in elements)
        {
            // Read on a copy: nothing of the element is changed.
            Map(element.DeepClone().AsObject(), (x, y) =>
            {
                (x0, y0, x1, y1) = (Math.Min(x0, x), Math.Min(y0, y), Math.Max(x1, x), Math.Max(y1, y));
                return (x, y);
            });
        }

        return x0 <= x1 ? (x0, y0, x1, y1) : null;
    }

    /// <summary>The upright box round the store.</summary>
    public static (double X0, double Y0, double X1, double Y1)? StoreBox(JsonObject layout) => Box([new JsonObject { ["outline"] = layout["outline"]?.DeepClone() }]);

    /// <summary>A point as the file has it.</summary>
    public static JsonArray Point(double x, double y) => [Number(x), Number(y)];

    /// <summary>An upright rectangle, counter-clockwise from its lower left corner.</summary>
    public static JsonArray Rectangle(double x, double y, double width, double height) =>
        [Point(x, y), Point(x + width, y), Point(x + width, y + height), Point(x, y + height)];

    /// <summary>A number as the file has it, rounded to a ten-thousandth.</summary>
    public static JsonNode Number(double value) => JsonValue.Create(Math.Round(value, Decimals) + 0.0);

    private JsonArray Of(string list) => Root[list] as JsonArray ?? [];

    private static JsonArray Mapped(JsonArray points, Func<double, double, (double X, double Y)> map) =>
        [.. points.Select(p =>
        {
            if (p is not JsonArray { Count: 2 } pair) return p?.DeepClone();
            double oldX = pair[0]!.GetValue<double>(), oldY = pair[1]!.GetValue<double>();
            var (x, y) = map(oldX, oldY);
            // A number that does not change is kept as it was written.
            return (JsonNode)new JsonArray(x == oldX ? pair[0]!.DeepClone() : Number(x), y == oldY ? pair[1]!.DeepClone() : Number(y));
        })];

    private string NextId(string list)
    {
        var taken = new HashSet<string>(StringComparer.Ordinal);
        foreach (var node in Root.Select(p => p.Value).OfType<JsonArray>().SelectMany(a => a).OfType<JsonObject>())
        {
            if (node["id"].Text() is { } used) taken.Add(used);
        }

        for (var n = 1; ; n++)
        {
            var id = Letters[list] + n.ToString(CultureInfo.InvariantCulture);
            if (!taken.Contains(id)) return id;
        }
    }
}
