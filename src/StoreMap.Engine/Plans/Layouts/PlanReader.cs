using System.Text.Json.Nodes;

namespace StoreMap.Plans;

/// <summary>Makes a plan of a layout's JSON, with all its problems.</summary>
internal static class PlanReader
{
    /// <summary>Reads and checks a layout.</summary>
    /// <param name="root">The layout.</param>
    /// <param name="byRules">Whether it is held against the rules that its elements must keep together.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <returns>The plan; only whole when <paramref name="problems"/> holds no error. Null when there is no outline to build on.</returns>
    public static Plan? Read(JsonObject root, bool byRules, ProblemList problems)
    {
        if (!HeaderReader.CheckFormat(root, problems)) return null;
        var unit = HeaderReader.Units(root, problems);
        var header = new FieldReader(root, null, unit ?? LengthUnit.Metre, problems);
        KnownFields.WarnOfSlips(root, header, null);
        var plan = HeaderReader.Read(header);
        var elements = new LayoutElements(header);
        if (!WithinAllPoints(root, problems)) return null;
        var whole = WithElements(plan ?? new Plan { Id = "", Name = "", Outline = [] }, elements);
        if (plan is null) return null;
        whole = DropReach.WithNearFixtures(whole);
        if (byRules) PlanRules.Check(whole, elements, unit is not null, problems);
        return whole;
    }

    private static Plan WithElements(Plan plan, LayoutElements elements) => plan with
    {
        Entrances = All(elements, LayoutLists.Entrances, PlaceReader.Entrance),
        Rooms = All(elements, LayoutLists.Rooms, PlaceReader.Room),
        Areas = All(elements, LayoutLists.Areas, PlaceReader.Area),
        Obstacles = All(elements, LayoutLists.Obstacles, PlaceReader.Obstacle),
        Fixtures = All(elements, LayoutLists.Fixtures, r => FixtureReader.Read(r, elements)),
        Equipment = All(elements, LayoutLists.Equipment, r => PlantReader.Equipment(r, elements)),
        Pits = All(elements, LayoutLists.Pits, r => PlantReader.Pit(r, elements)),
        Drops = All(elements, LayoutLists.Drops, r => PlantReader.Drop(r, elements)),
        Pipes = All(elements, LayoutLists.Pipes, r => PlantReader.Pipe(r, elements)),
        Circuits = All(elements, LayoutLists.Circuits, r => RefrigerationReader.Circuit(r, elements)),
        Systems = All(elements, LayoutLists.Systems, RefrigerationReader.System),
    };

    private static IReadOnlyList<T> All<T>(LayoutElements elements, string list, Func<FieldReader, T?> read)
        where T : class => [.. elements[list].Select(read).OfType<T>()];

    // Arrays of two are points for this purpose; what else looks like one is as costly to hold.
    private static bool WithinAllPoints(JsonObject root, ProblemList problems)
    {
        var points = Points(root);
        if (points <= LayoutLimits.AllPoints) return true;
        problems.Error(null, null, null, "all-points", $"The layout has about {points} points; at most {LayoutLimits.AllPoints} are allowed. Leave out what is no wall, fixture or obstacle.");
        return false;
    }

    private static int Points(JsonNode? node) => node switch
    {
        JsonObject map => map.Sum(pair => Points(pair.Value)),
        JsonArray { Count: 2 } pair when pair[0] is JsonValue => 1,
        JsonArray array => array.Sum(Points),
        _ => 0,
    };
}
