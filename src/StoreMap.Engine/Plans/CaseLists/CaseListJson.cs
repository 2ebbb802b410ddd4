using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Writes the layout that a case list makes.</summary>
internal static class CaseListJson
{
    private const double Doorway = 4 * LengthUnits.MetresPerFoot;
    private const double CoilOffWall = 1.5 * LengthUnits.MetresPerFoot;
    private const double FloorPerCoil = 15 * LengthUnits.MetresPerFoot;

    /// <summary>The layout's JSON.</summary>
    public static JsonObject Layout(IReadOnlyList<CaseRow> rows, CaseListPlant plant, CaseFloor floor, CaseListOptions options, string id)
    {
        var names = new NewIds();
        var circuits = plant.Circuits.ToDictionary(c => c.Name, c => names.Id(c.Name, "K-"));
        var systems = plant.Systems.ToDictionary(s => s.Name, s => names.Id(s.Name, "S-"));
        var fixtures = new JsonArray();
        foreach (var row in rows)
        {
            var place = floor.Places.First(p => p.Row == row);
            fixtures.Add((JsonNode)Fixture(place, names.Id(row.Tag, "C-"), [.. plant.Feeding(row).Select(c => circuits[c])], options.Units));
        }

        var layout = new JsonObject
        {
            ["format"] = $"{HeaderReader.FormatName}/{HeaderReader.Major}", ["id"] = id, ["name"] = options.Name ?? id,
            ["units"] = options.Units.Symbol(), ["revision"] = 1, ["schematic"] = true,
            ["outline"] = Box(0, 0, floor.Width, floor.Height),
            ["entrances"] = new JsonArray(new JsonObject { ["id"] = names.Id("E1", "E-"), ["at"] = Point(Round(floor.Width / 2), 0) }),
            ["fixtures"] = fixtures,
            ["circuits"] = new JsonArray([.. plant.Circuits.Select(c => Circuit(circuits[c.Name], c.System is null ? null : systems[c.System]))]),
            ["systems"] = new JsonArray([.. plant.Systems.Select(s => System(systems[s.Name], s.Refrigerant))]),
        };
        if (options.TimeZone is not null) layout["timeZone"] = options.TimeZone;
        return layout;
    }

    private static JsonObject Fixture(CasePlace place, string id, string[] circuits, LengthUnit unit)
    {
        var row = place.Row;
        var (x, y, right, top) = (place.X, place.Y, Round(place.X + place.Width), Round(place.Y + place.Depth));
        var fixture = new JsonObject { ["id"] = id, ["tag"] = row.Tag };
        if (row.Name is not null) fixture["name"] = row.Name;
        fixture["kind"] = row.Kind.Kebab();
        if (row.LineUp is not null) fixture["lineUp"] = row.LineUp;
        fixture["outline"] = Box(x, y, right, top);
        if (row.Kind == FixtureKind.WalkIn)
        {
            var half = Math.Min(unit.FromMetres(Doorway), place.Width * 0.8) / 2;
            fixture["opening"] = new JsonArray(Point(Round(x + (place.Width / 2) - half), y), Point(Round(x + (place.Width / 2) + half), y));
            fixture["coils"] = Coils(place, top, unit);
        }
        else
        {
            fixture["front"] = new JsonArray(Point(x, y), Point(right, y));
            fixture["sections"] = new JsonArray([.. row.Lengths.Select(l => (JsonNode)l)]);
            if (row.Doors is not null) fixture["doors"] = row.Doors;
        }

        if (circuits.Length == 1) fixture["circuit"] = circuits[0];
        if (circuits.Length > 1) fixture["circuit"] = new JsonArray([.. circuits.Select(c => (JsonNode)c)]);
        if (row.Product is not null) fixture["product"] = row.Product;
        if (row.Kind == FixtureKind.SelfContained && row.Refrigerant is not null) fixture["refrigerant"] = row.Refrigerant;
        return fixture;
    }

    // Evaporators hang on the wall that faces the door, about one for 15 ft of it.
    private static JsonArray Coils(CasePlace place, double top, LengthUnit unit)
    {
        var count = Math.Max(1, (int)Math.Ceiling(place.Width / unit.FromMetres(FloorPerCoil)));
        var y = Round(top - Math.Min(unit.FromMetres(CoilOffWall), place.Depth / 2));
        return new JsonArray([.. Enumerable.Range(0, count).Select(i => Point(Round(place.X + (place.Width * (i + 0.5) / count)), y))]);
    }

    private static JsonObject Circuit(string id, string? system)
    {
        var circuit = new JsonObject { ["id"] = id };
        if (system is not null) circuit["system"] = system;
        return circuit;
    }

    private static JsonObject System(string id, string? refrigerant)
    {
        var system = new JsonObject { ["id"] = id, ["type"] = SystemType.Direct.Kebab() };
        if (refrigerant is not null) system["refrigerant"] = refrigerant;
        return system;
    }

    private static JsonArray Box(double x, double y, double right, double top) => new(Point(x, y), Point(right, y), Point(right, top), Point(x, top));

    private static JsonArray Point(double x, double y) => new((JsonNode)x, (JsonNode)y);

    private static double Round(double value) => Math.Round(value, 4);
}
