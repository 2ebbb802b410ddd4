using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Writes the elements of a layout made of a drawing, in the layout's unit, to a tenth of a millimetre.</summary>
internal sealed class DrawingJson(LengthUnit unit)
{
    private const double Doorway = 4 * LengthUnits.MetresPerFoot;

    // The order of lists in a layout file.
    private static readonly string[] Order = ["entrances", "rooms", "obstacles", "fixtures", "pits", "drops", "pipes"];

    private readonly int digits = unit switch { LengthUnit.Millimetre => 1, LengthUnit.Inch => 3, _ => 4 };

    /// <summary>The whole layout.</summary>
    public JsonObject Root(string id, string name, string? timeZone, IReadOnlyList<PlanPoint> outline, IReadOnlyDictionary<string, JsonArray> lists)
    {
        var root = new JsonObject { ["format"] = $"{HeaderReader.FormatName}/{HeaderReader.Major}", ["id"] = id, ["name"] = name };
        if (timeZone is not null) root["timeZone"] = timeZone;
        root["units"] = unit.Symbol();
        root["revision"] = 1;
        root["outline"] = Points(outline);
        foreach (var list in Order.Where(lists.ContainsKey)) root[list] = lists[list];
        return root;
    }

    /// <summary>An element with a ring and perhaps one more field.</summary>
    public JsonObject Ring(string id, IReadOnlyList<PlanPoint> ring, (string Field, string Value)? more = null)
    {
        var element = new JsonObject { ["id"] = id };
        if (more is { } field) element[field.Field] = field.Value;
        element["outline"] = Points(ring);
        return element;
    }

    /// <summary>An element at a point.</summary>
    public JsonObject Place(string id, PlanPoint at) => new() { ["id"] = id, ["at"] = Point(at) };

    /// <summary>A pipe run.</summary>
    public JsonObject Line(string id, IReadOnlyList<PlanPoint> path) => new() { ["id"] = id, ["path"] = Points(path) };

    /// <summary>A case; an island's back is left to the layout's own rule.</summary>
    public JsonObject Case(string id, string? tag, string kind, IReadOnlyList<PlanPoint> ring, PlanSegment front)
    {
        var fixture = new JsonObject { ["id"] = id };
        if (tag is not null) fixture["tag"] = tag;
        fixture["kind"] = kind;
        fixture["outline"] = Points(ring);
        fixture["front"] = Points([front.A, front.B]);
        return fixture;
    }

    /// <summary>A walk-in with a doorway in the middle of one wall.</summary>
    public JsonObject WalkIn(string id, string? tag, IReadOnlyList<PlanPoint> ring, PlanSegment wall)
    {
        var half = (wall.B - wall.A) * (Math.Min(Doorway, wall.Length * 0.8) / 2 / wall.Length);
        var fixture = Case(id, tag, FixtureKind.WalkIn.Kebab(), ring, wall);
        fixture.Remove("front");
        fixture["opening"] = Points([wall.Middle - half, wall.Middle + half]);
        return fixture;
    }

    private JsonArray Points(IEnumerable<PlanPoint> points) => new([.. points.Select(p => (JsonNode)Point(p))]);

    private JsonArray Point(PlanPoint p) => new((JsonNode)Round(p.X), (JsonNode)Round(p.Y));

    private double Round(double metres) => Math.Round(unit.FromMetres(metres), digits);
}
