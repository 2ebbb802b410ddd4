using System.Text.Json.Nodes;

namespace StoreMap.Simulation.Stores;

/// <summary>The way a line-up's front faces on the drawing.</summary>
internal enum Facing
{
    /// <summary>Down the sheet.</summary>
    South,

    /// <summary>Up the sheet.</summary>
    North,

    /// <summary>To the right.</summary>
    East,

    /// <summary>To the left.</summary>
    West,
}

/// <summary>A layout in the making, drawn in feet and written in its own unit: metric stores stand on a module of 0.3125 m for a foot,
/// so that 8 and 12 ft become 2.5 and 3.75 m.</summary>
internal sealed class FloorPlan(SeededNoise noise, bool metric)
{
    private readonly JsonArray rooms = [];
    private readonly JsonArray obstacles = [];
    private readonly JsonArray fixtures = [];
    private readonly JsonArray drops = [];
    private readonly JsonArray pipes = [];
    private readonly JsonArray circuits = [];
    private int cases;
    private int lineUps;

    /// <summary>The layout.</summary>
    public JsonObject Layout(int number, double width, double depth) => new()
    {
        ["format"] = "storemap-layout/1",
        ["id"] = FormattableString.Invariant($"simulated-{number}"),
        ["name"] = FormattableString.Invariant($"Simulated store {number}"),
        ["timeZone"] = "UTC",
        ["units"] = metric ? "m" : "ft",
        ["outline"] = Box(0, 0, width, depth),
        ["entrances"] = new JsonArray(new JsonObject { ["id"] = "E1", ["at"] = Point(10, 0) }),
        ["rooms"] = rooms,
        ["obstacles"] = obstacles,
        ["fixtures"] = fixtures,
        ["drops"] = drops,
        ["pipes"] = pipes,
        ["circuits"] = circuits,
        ["systems"] = new JsonArray(new JsonObject { ["id"] = "A", ["type"] = "direct", ["refrigerant"] = "R-448A", ["charge"] = metric ? 500 : 1100, ["chargeUnit"] = metric ? "kg" : "lb" }),
    };

    /// <summary>Joins fixtures end to end along a straight front.</summary>
    /// <param name="kind">Fixture kind as in the layout.</param>
    /// <param name="facing">Where the front faces.</param>
    /// <param name="x">Lower or left end of the front, ft.</param>
    /// <param name="y">Lower or left end of the front, ft.</param>
    /// <param name="room">Feet of front there is room for.</param>
    /// <param name="depth">Depth of the cases, ft.</param>
    /// <returns>Feet of front used.</returns>
    public double LineUp(string kind, Facing facing, double x, double y, double room, double depth)
    {
        var lineUp = FormattableString.Invariant($"L{++lineUps}");
        var circuit = FormattableString.Invariant($"A{lineUps}");
        circuits.Add(new JsonObject { ["id"] = circuit, ["system"] = "A" });
        var used = 0.0;
        var most = 1 + noise.Below(3);
        var reversed = noise.Chance(0.5);
        for (var i = 0; i < most; i++)
        {
            var sections = Sections(kind, room - used);
            if (sections.Count == 0) break;
            var length = sections.Sum();
            // Now and then two joined cases were measured from different ends.
            Add(kind, lineUp, circuit, facing, x, y, used, length, depth, sections, reversed != noise.Chance(0.2));
            used += length;
        }

        var (along, into) = Axes(facing);
        if (noise.Chance(0.6) && used > 0)
        {
            var offset = depth * noise.Between(0.2, 0.9);
            pipes.Add(new JsonObject
            {
                ["id"] = FormattableString.Invariant($"P{lineUps}"), ["level"] = "ceiling", ["circuit"] = circuit,
                ["path"] = new JsonArray(Point(x + (into.X * offset), y + (into.Y * offset)), Point(x + (along.X * used) + (into.X * offset), y + (along.Y * used) + (into.Y * offset))),
            });
        }

        return used;
    }

    /// <summary>An island with two long edges.</summary>
    public void Island(double x, double y, double length, double depth)
    {
        var id = FormattableString.Invariant($"C{++cases}");
        var circuit = FormattableString.Invariant($"I{cases}");
        circuits.Add(new JsonObject { ["id"] = circuit, ["system"] = "A" });
        var north = noise.Chance(0.5);
        var front = new JsonArray(Point(x, north ? y + depth : y), Point(x + length, north ? y + depth : y));
        var back = new JsonArray(Point(x, north ? y : y + depth), Point(x + length, north ? y : y + depth));
        if (noise.Chance(0.5)) (front, back) = (Turned(front), Turned(back));
        fixtures.Add(new JsonObject
        {
            ["id"] = id, ["kind"] = "island-case", ["outline"] = Box(x, y, x + length, y + depth), ["front"] = front, ["back"] = back,
            ["sections"] = new JsonArray(Number(length / 2), Number(length / 2)), ["panels"] = Panels([length / 2, length / 2]), ["circuit"] = circuit, ["product"] = "frozen",
        });
        if (noise.Chance(0.5)) Drop(x + (length * noise.Between(0.3, 0.7)), y + (depth / 2), id);
    }

    /// <summary>A walk-in with its doorway on the left wall and its coil on the right.</summary>
    public void WalkIn(double x, double y, double width, double depth)
    {
        var id = FormattableString.Invariant($"K{fixtures.Count + 1}");
        fixtures.Add(new JsonObject
        {
            ["id"] = id, ["kind"] = "walk-in", ["outline"] = Box(x, y, x + width, y + depth),
            ["opening"] = new JsonArray(Point(x, y + (depth / 2) - 1.5), Point(x, y + (depth / 2) + 1.5)),
            ["coils"] = new JsonArray(Point(x + width - 1.5, y + (depth / 2))), ["circuit"] = "A1",
        });
    }

    public void Room(string id, string kind, double left, double bottom, double right, double top, double doorFrom, double doorTo, bool aerosol) => rooms.Add(new JsonObject
    {
        ["id"] = id, ["name"] = kind == "bakery" ? "Bakery" : "Stock room", ["kind"] = kind, ["outline"] = Box(left, bottom, right, top),
        ["openings"] = new JsonArray(new JsonArray(Point(left, doorFrom), Point(left, doorTo))), ["aerosol"] = aerosol,
    });

    public void Shelving(double left, double bottom, double right, double top) => obstacles.Add(new JsonObject
    {
        ["id"] = FormattableString.Invariant($"G{obstacles.Count + 1}"), ["kind"] = "shelving", ["outline"] = Box(left, bottom, right, top),
    });

    private void Add(
        string kind, string lineUp, string circuit, Facing facing, double x, double y, double used, double length, double depth,
        List<double> sections, bool turned)
    {
        var id = FormattableString.Invariant($"C{++cases}");
        var (along, into) = Axes(facing);
        var (ax, ay) = (x + (along.X * used), y + (along.Y * used));
        var (bx, by) = (ax + (along.X * length), ay + (along.Y * length));
        var outline = Box(Math.Min(ax, bx + (into.X * depth)), Math.Min(ay, by + (into.Y * depth)), Math.Max(bx, ax + (into.X * depth)), Math.Max(by, ay + (into.Y * depth)));
        var front = new JsonArray(Point(ax, ay), Point(bx, by));
        if (turned) sections.Reverse();
        var fixture = new JsonObject
        {
            ["id"] = id, ["kind"] = kind, ["lineUp"] = lineUp, ["outline"] = outline, ["front"] = turned ? Turned(front) : front,
            ["sections"] = new JsonArray([.. sections.Select(s => Number(s))]), ["panels"] = Panels(sections), ["circuit"] = circuit,
            ["product"] = noise.Pick(["fresh meat", "dairy", "produce", "frozen", "beverage"]),
        };
        if (kind == "door-case") fixture["doors"] = (int)Math.Round(length / 2.5);
        if (noise.Chance(0.6)) fixture["valveEnd"] = noise.Chance(0.5) ? "left" : "right";
        if (noise.Chance(0.6)) fixture["drains"] = new JsonArray(Number(sections[0] / 2));
        fixtures.Add(fixture);
        if (!noise.Chance(0.6)) return;
        var at = length * noise.Between(0.05, 0.95);
        Drop(ax + (along.X * at) + (into.X * depth * 0.6), ay + (along.Y * at) + (into.Y * depth * 0.6), id);
    }

    private void Drop(double x, double y, string fixture) => drops.Add(new JsonObject
    {
        ["id"] = FormattableString.Invariant($"D{drops.Count + 1}"), ["at"] = Point(x, y), ["fixtures"] = new JsonArray(fixture),
    });

    // Of about 4 ft, never across a joint.
    private JsonArray Panels(IReadOnlyList<double> sections)
    {
        var panels = new JsonArray();
        foreach (var section in sections)
        {
            var count = Math.Max(1, (int)Math.Round(section / 4));
            for (var i = 0; i < count; i++) panels.Add(Number(section / count));
        }

        return panels;
    }

    private List<double> Sections(string kind, double room)
    {
        double[] sizes = kind switch
        {
            "door-case" => [5, 7.5, 10, 12.5],
            "service-case" => [6, 8, 12],
            _ => [8, 12],
        };
        var sections = new List<double>();
        var most = 1 + noise.Below(3);
        for (var i = 0; i < most; i++)
        {
            var size = noise.Pick(sizes);
            if (sections.Sum() + size > room) break;
            sections.Add(size);
        }

        return sections;
    }

    // Along the front towards higher x or y, and into the case.
    private static ((double X, double Y) Along, (double X, double Y) Into) Axes(Facing facing) => facing switch
    {
        Facing.South => ((1, 0), (0, 1)),
        Facing.North => ((1, 0), (0, -1)),
        Facing.East => ((0, 1), (-1, 0)),
        _ => ((0, 1), (1, 0)),
    };

    private static JsonArray Turned(JsonArray line) => [.. line.Reverse().Select(p => p!.DeepClone())];

    private JsonArray Box(double left, double bottom, double right, double top) =>
        new(Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top));

    private JsonArray Point(double x, double y) => new(Number(x), Number(y));

    private double Number(double feet) => Math.Round(feet * (metric ? 0.3125 : 1), 4);
}
