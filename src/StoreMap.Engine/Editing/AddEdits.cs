using System.Text.Json.Nodes;
using StoreMap.Plans;

namespace StoreMap.Editing;

/// <summary>Which way the front of a case looks.</summary>
public enum FrontLooks
{
    /// <summary>To the foot of the plan.</summary>
    Down,

    /// <summary>To the right.</summary>
    Right,

    /// <summary>To the head of the plan.</summary>
    Up,

    /// <summary>To the left.</summary>
    Left,
}

/// <summary>Adds a fixture: a case with its sections along a front, or a walk-in with a doorway in the middle of its front.</summary>
/// <param name="Kind">Kind as the file names it, such as <c>open-case</c>.</param>
/// <param name="X">Lower left corner.</param>
/// <param name="Y">Lower left corner.</param>
/// <param name="Sections">Lengths of its sections; of a walk-in their sum is its width.</param>
/// <param name="Depth">Depth from front to back.</param>
/// <param name="Looks">Which way its front looks.</param>
public sealed record AddFixtureEdit(string Kind, double X, double Y, IReadOnlyList<double> Sections, double Depth, FrontLooks Looks) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var length = Sections.Sum();
        var (w, h) = Looks is FrontLooks.Down or FrontLooks.Up ? (length, Depth) : (Depth, length);
        // From the left end facing the case.
        var (a, b) = Looks switch
        {
            FrontLooks.Down => ((X, Y), (X + w, Y)),
            FrontLooks.Right => ((X + w, Y), (X + w, Y + h)),
            FrontLooks.Up => ((X + w, Y + h), (X, Y + h)),
            _ => ((X, Y + h), (X, Y)),
        };
        var element = new JsonObject { ["kind"] = Kind, ["outline"] = LayoutElementsJson.Rectangle(X, Y, w, h) };
        var (from, to) = (new PlanPoint(a.Item1, a.Item2), new PlanPoint(b.Item1, b.Item2));
        if (FixtureFrame.IsWalkIn(element))
        {
            element["opening"] = FixtureFrame.Doorway(from, to);
        }
        else
        {
            element["front"] = FixtureFrame.Line(from, to);
            element["sections"] = new JsonArray([.. Sections.Select(LayoutElementsJson.Number)]);
        }

        return [layout.Add("fixtures", element)];
    }
}

/// <summary>Adds a rectangle to one of the lists <c>rooms</c>, <c>obstacles</c> or <c>pits</c>.</summary>
/// <param name="List">The list.</param>
/// <param name="Kind">Kind as the file names it.</param>
/// <param name="Name">A room's name; not used of others.</param>
/// <param name="X">Lower left corner.</param>
/// <param name="Y">Lower left corner.</param>
/// <param name="Width">Along x.</param>
/// <param name="Height">Along y.</param>
public sealed record AddAreaEdit(string List, string Kind, string Name, double X, double Y, double Width, double Height) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var element = new JsonObject();
        if (List == "rooms") element["name"] = Name;
        element["kind"] = Kind;
        element["outline"] = LayoutElementsJson.Rectangle(X, Y, Width, Height);
        return [layout.Add(List, element)];
    }
}

/// <summary>Adds a doorway to a room, on its outline.</summary>
public sealed record AddOpeningEdit(string Room, double X0, double Y0, double X1, double Y1) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Room) is not ("rooms", var element)) return [];
        if (element["openings"] is not JsonArray openings) element["openings"] = openings = [];
        openings.Add((JsonNode)new JsonArray(LayoutElementsJson.Point(X0, Y0), LayoutElementsJson.Point(X1, Y1)));
        return [Room];
    }
}

/// <summary>Adds a line drop for fixtures.</summary>
public sealed record AddDropEdit(double X, double Y, IReadOnlyList<string> Fixtures) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout) =>
        [layout.Add("drops", new JsonObject { ["at"] = LayoutElementsJson.Point(X, Y), ["fixtures"] = new JsonArray([.. Fixtures.Select(f => (JsonNode)f)]) })];
}

/// <summary>Adds an entrance.</summary>
public sealed record AddEntranceEdit(double X, double Y) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout) => [layout.Add("entrances", new JsonObject { ["at"] = LayoutElementsJson.Point(X, Y) })];
}
