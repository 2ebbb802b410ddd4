using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Makes a layout of a drawing's shapes: what can be told by layer, block and text is taken, the rest is said to be completed.</summary>
internal sealed class DrawingLayout
{
    private const double DropCluster = 0.3;
    private const double LeastPipe = 1;
    private const double ThickestWall = 0.6;
    private const double LeastRoom = 0.8;

    private readonly Drawing drawing;
    private readonly ProblemList problems;
    private readonly NewIds ids = new();
    private readonly DrawingJson json;
    private readonly IReadOnlyList<PlanPoint> outline;
    private readonly List<PlanSegment> edges;
    private readonly Dictionary<string, JsonArray> lists = new(StringComparer.Ordinal);
    private readonly List<IReadOnlyList<PlanPoint>> fixtures = [];
    private readonly List<PlanPoint> drops = [];
    private readonly SortedDictionary<string, int> unused = new(StringComparer.Ordinal);

    private DrawingLayout(Drawing drawing, IReadOnlyList<PlanPoint> outline, ProblemList problems)
    {
        (this.drawing, this.outline, this.problems) = (drawing, outline, problems);
        json = new DrawingJson(drawing.Unit);
        edges = [.. Rings.Edges(outline), .. drawing.Shapes.Where(s => s.Closed).SelectMany(s => Rings.Edges(s.Points))];
    }

    /// <summary>Makes the layout.</summary>
    /// <exception cref="RefusedInputException">No outline can be found, or what is found makes no sound layout.</exception>
    public static LayoutDocument Make(Drawing drawing, string? fileName, DrawingOptions options, ProblemList problems)
    {
        var roles = new DrawingRoles(options.Roles);
        var shapes = drawing.Shapes.Select(s => (Shape: s, Role: roles.Of(s))).ToList();
        var walls = shapes.Where(s => s.Role == DrawingRole.Outline).Select(s => s.Shape).ToList();
        if (walls.Count == 0) walls = [.. shapes.Where(s => s.Role == DrawingRole.Wall).Select(s => s.Shape)];
        if (DrawingOutline.Of(walls, [.. shapes.Where(s => s.Shape.Closed && IsFixture(s.Role)).Select(s => s.Shape)]) is not { } outline)
        {
            var layers = string.Join(", ", drawing.Shapes.Select(s => s.Layer).Distinct().Order(StringComparer.Ordinal).Take(20));
            problems.Error("outline", null, null, "drawing-outline",
                $"No closed line of walls is found. Say which layer or block holds the outer walls, such as --layers WALLS=outline. Layers with shapes: {(layers.Length > 0 ? layers : "none")}.");
            throw new RefusedInputException(problems.All);
        }

        var layout = new DrawingLayout(drawing, DrawingShapes.Cleaned(outline), problems);
        foreach (var (shape, role) in shapes) layout.Add(shape, role);
        layout.AddDrops(shapes.Where(s => s is { Role: DrawingRole.Drop, Shape.Closed: true }).Select(s => s.Shape));
        layout.TellUnused();
        var id = NewIds.LayoutId(options.Id ?? fileName);
        var root = layout.json.Root(id, options.Name ?? id, options.TimeZone, layout.outline, layout.lists);
        return LayoutDocument.FromJson(root, fileName).After(problems.All);
    }

    private void Add(DrawnShape shape, DrawingRole? role)
    {
        var ring = shape.Closed && DrawingShapes.IsSound(shape.Points) ? Rings.CounterClockwise(DrawingShapes.Cleaned(shape.Points)) : null;
        switch (role)
        {
            case null:
                unused[shape.Layer] = unused.GetValueOrDefault(shape.Layer) + 1;
                break;
            case DrawingRole.Outline or DrawingRole.Ignore:
                break;
            case DrawingRole.Wall:
                Wall(shape, ring);
                break;
            case DrawingRole.Pipe or DrawingRole.Drop:
                // Closed figures among drops are the drops themselves, short lines their crosses.
                if (role == DrawingRole.Pipe || (!shape.Closed && shape.Length >= LeastPipe)) List("pipes").Add((JsonNode)json.Line(ids.Next("L"), shape.Points));
                break;
            case DrawingRole.Entrance:
                List("entrances").Add((JsonNode)json.Place(ids.Next("E"), Rings.NearestOnEdge(outline, DrawingShapes.Middle(shape.Points))));
                break;
            case var _ when ring is null:
                // The lines of a case or shelf inside its own figure say nothing more.
                if (shape.Closed) problems.Warn(shape.Layer, null, shape.Source, "drawing-ring", $"The {shape.Type} near {Say.Place(shape.Points[0], drawing.Unit)} crosses itself or has no area; it is left out.");
                break;
            case var _ when !Rings.Contains(outline, DrawingShapes.Middle(ring)) || (IsFixture(role) && Overlap.IsDeeperThan(PlanShapes.Difference(PlanShapes.Polygon(ring), PlanShapes.Polygon(outline)), LayoutLimits.Slack)):
                problems.Warn(shape.Layer, null, shape.Source, "drawing-outside", $"The {shape.Type} near {Say.Place(ring[0], drawing.Unit)} lies outside the store, or partly; it is left out.");
                break;
            case DrawingRole.Room:
                List("rooms").Add((JsonNode)json.Ring(ids.Next("R"), ring, Named(ring)));
                break;
            case DrawingRole.Pit or DrawingRole.Trench:
                List("pits").Add((JsonNode)json.Ring(ids.Next("P"), ring, ("kind", role == DrawingRole.Pit ? "pit" : "trench")));
                break;
            case var _ when IsFixture(role):
                Fixture(ring, role.Value);
                break;
            default:
                List("obstacles").Add((JsonNode)json.Ring(ids.Next("G"), ring, ("kind", role == DrawingRole.Obstacle ? "other" : role.Value.Kebab())));
                break;
        }
    }

    private static bool IsFixture(DrawingRole? role) =>
        role is DrawingRole.OpenCase or DrawingRole.DoorCase or DrawingRole.IslandCase or DrawingRole.ServiceCase or DrawingRole.SelfContained or DrawingRole.WalkIn;

    private void Wall(DrawnShape shape, IReadOnlyList<PlanPoint>? ring)
    {
        if (shape.Points.All(p => Rings.DistanceToEdge(outline, p) < ThickestWall)) return;
        if (ring is null)
        {
            if (!shape.Closed && DrawingShapes.Wall(shape.Points) is { } wall) List("obstacles").Add((JsonNode)json.Ring(ids.Next("G"), wall, ("kind", "wall")));
        }
        else if (Overlap.IsDeeperThan(PlanShapes.Polygon(ring), LeastRoom))
        {
            List("rooms").Add((JsonNode)json.Ring(ids.Next("R"), ring, Named(ring)));
        }
        else
        {
            List("obstacles").Add((JsonNode)json.Ring(ids.Next("G"), ring, ("kind", "wall")));
        }
    }

    private void Fixture(IReadOnlyList<PlanPoint> ring, DrawingRole role)
    {
        var polygon = PlanShapes.Polygon(ring);
        var place = Say.Place(ring[0], drawing.Unit);

        // Fans, shelves and doors are drawn inside their case.
        if (fixtures.Exists(f => PlanShapes.Polygon(f).Covers(polygon))) return;
        if (fixtures.Exists(f => Overlap.IsDeeperThan(PlanShapes.Intersection(polygon, PlanShapes.Polygon(f)), LayoutLimits.Slack)))
        {
            problems.Warn(null, null, null, "drawing-overlap", $"The figure near {place} lies over another fixture; it is left out.");
            return;
        }

        fixtures.Add(ring);
        var label = LabelIn(ring);
        var id = label is null ? ids.Next("C") : ids.Id(label, "C-");
        var longest = Rings.Edges(ring).Max(e => e.Length);
        var sides = Rings.Edges(ring).Where(e => e.Length >= longest / 2).ToList();
        var own = Rings.Edges(ring).ToHashSet();
        var others = edges.Where(e => !own.Contains(e) && !own.Contains(new PlanSegment(e.B, e.A))).ToList();
        if (role == DrawingRole.WalkIn)
        {
            var wall = sides.MaxBy(e => DrawingShapes.Clear(e, others, 3));
            List("fixtures").Add((JsonNode)json.WalkIn(id, label, ring, wall));
            problems.Warn(id, "opening", null, "drawing-opening", "The doorway is taken to be in the middle of the side with most room before it; put it where it is.");
        }
        else
        {
            var front = sides.Where(e => e.Length > longest * 0.9).MaxBy(e => DrawingShapes.Clear(e, others, 3));
            List("fixtures").Add((JsonNode)json.Case(id, label, role.Kebab(), ring, front));
            problems.Warn(id, "front", null, "drawing-front", "The front is taken to be the long side with most room before it, in one section; put in its sections, circuit and system.");
        }
    }

    // A drop is often drawn as a circle with a cross: figures close together are one.
    private void AddDrops(IEnumerable<DrawnShape> figures)
    {
        foreach (var at in figures.Select(f => DrawingShapes.Middle(f.Points)))
        {
            if (drops.Exists(d => d.DistanceTo(at) < DropCluster)) continue;
            drops.Add(at);
            List("drops").Add((JsonNode)json.Place(ids.Next("D"), at));
        }
    }

    private void TellUnused()
    {
        foreach (var (layer, count) in unused)
        {
            problems.Warn(layer, null, null, "drawing-layer", FormattableString.Invariant($"{count} shapes of this layer are not used. Say what they are, such as --layers {layer}=shelving."));
        }
    }

    private (string, string)? Named(IReadOnlyList<PlanPoint> ring) => LabelIn(ring) is { } label ? ("name", label) : null;

    private string? LabelIn(IReadOnlyList<PlanPoint> ring) =>
        drawing.Labels.Where(l => Rings.Contains(ring, l.At)).Select(l => l.Text.Split('\n')[0].Trim()).FirstOrDefault(t => t.Length is > 0 and <= LayoutLimits.Text);

    private JsonArray List(string name) => lists.TryGetValue(name, out var list) ? list : lists[name] = [];
}
