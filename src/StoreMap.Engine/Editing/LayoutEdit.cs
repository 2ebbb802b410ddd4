using System.Text.Json.Nodes;

namespace StoreMap.Editing;

/// <summary>A change to a layout. Coordinates and lengths are in the layout's own unit; unknown ids are passed over.</summary>
public abstract record LayoutEdit
{
    /// <summary>Makes the change.</summary>
    /// <param name="layout">The layout's elements.</param>
    /// <returns>Ids of the elements made or changed.</returns>
    public abstract IReadOnlyList<string> Apply(LayoutElementsJson layout);
}

/// <summary>Moves elements.</summary>
public sealed record MoveEdit(IReadOnlyList<string> Ids, double X, double Y) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        foreach (var (_, element) in layout.Find(Ids)) LayoutElementsJson.Map(element, (x, y) => (x + X, y + Y));
        return Ids;
    }
}

/// <summary>Turns elements together about the middle of their box, anticlockwise.</summary>
/// <param name="Ids">Which.</param>
/// <param name="QuarterTurns">Quarter turns.</param>
public sealed record RotateEdit(IReadOnlyList<string> Ids, int QuarterTurns) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var found = layout.Find(Ids);
        if (LayoutElementsJson.Box(found.Select(f => f.Element)) is not var (x0, y0, x1, y1)) return [];
        double cx = (x0 + x1) / 2, cy = (y0 + y1) / 2;
        foreach (var (_, element) in found)
        {
            LayoutElementsJson.Map(element, (x, y) =>
            {
                var (u, v) = (x - cx, y - cy);
                for (var i = ((QuarterTurns % 4) + 4) % 4; i > 0; i--) (u, v) = (-v, u);
                return (cx + u, cy + v);
            });
        }

        return Ids;
    }
}

/// <summary>Mirrors elements together about the middle of their box; valves change ends with it.</summary>
/// <param name="Ids">Which.</param>
/// <param name="LeftRight">True for left and right, false for up and down.</param>
public sealed record MirrorEdit(IReadOnlyList<string> Ids, bool LeftRight) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var found = layout.Find(Ids);
        if (LayoutElementsJson.Box(found.Select(f => f.Element)) is not var (x0, y0, x1, y1)) return [];
        foreach (var (_, element) in found)
        {
            LayoutElementsJson.Map(element, (x, y) => LeftRight ? (x0 + x1 - x, y) : (x, y0 + y1 - y));
            if (element["valveEnd"] is JsonValue end) element["valveEnd"] = end.ToString() == "left" ? "right" : "left";
        }

        return Ids;
    }
}

/// <summary>Repeats elements a number of times, each a step further: once is a duplicate, more an array.</summary>
/// <param name="Ids">Which.</param>
/// <param name="Times">Copies, 1 to 100.</param>
/// <param name="X">Step.</param>
/// <param name="Y">Step.</param>
public sealed record RepeatEdit(IReadOnlyList<string> Ids, int Times, double X, double Y) : LayoutEdit
{
    /// <summary>Copies at most.</summary>
    public const int MostTimes = 100;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var made = new List<string>();
        var found = layout.Find(Ids);
        for (var n = 1; n <= Math.Min(Times, MostTimes); n++)
        {
            foreach (var (list, element) in found)
            {
                var copy = element.DeepClone().AsObject();
                // A copy is another thing: it has no tag of its own yet.
                copy.Remove("tag");
                LayoutElementsJson.Map(copy, (x, y) => (x + (n * X), y + (n * Y)));
                made.Add(layout.Add(list, copy));
            }
        }

        return made;
    }
}

/// <summary>Sides to which elements are brought in line.</summary>
public enum AlignSide
{
    /// <summary>The least x.</summary>
    Left,

    /// <summary>The greatest x.</summary>
    Right,

    /// <summary>The least y.</summary>
    Bottom,

    /// <summary>The greatest y.</summary>
    Top,
}

/// <summary>Brings elements in line with the outermost of them.</summary>
public sealed record AlignEdit(IReadOnlyList<string> Ids, AlignSide Side) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var found = layout.Find(Ids);
        if (LayoutElementsJson.Box(found.Select(f => f.Element)) is not var (x0, y0, x1, y1)) return [];
        foreach (var (_, element) in found)
        {
            if (LayoutElementsJson.Box([element]) is not var (a0, b0, a1, b1)) continue;
            var (dx, dy) = Side switch { AlignSide.Left => (x0 - a0, 0.0), AlignSide.Right => (x1 - a1, 0.0), AlignSide.Bottom => (0.0, y0 - b0), _ => (0.0, y1 - b1) };
            LayoutElementsJson.Map(element, (x, y) => (x + dx, y + dy));
        }

        return Ids;
    }
}

/// <summary>Takes elements out, and what refers to them.</summary>
public sealed record RemoveEdit(IReadOnlyList<string> Ids) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        foreach (var id in Ids) layout.Remove(id);
        return [];
    }
}

/// <summary>Sets or, with null, takes out a field that is a word, such as a tag, a name or a circuit.</summary>
public sealed record SetTextEdit(string Id, string Field, string? Text) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not var (_, element)) return [];
        if (string.IsNullOrWhiteSpace(Text)) element.Remove(Field);
        else element[Field] = Text.Trim();
        return [Id];
    }
}

/// <summary>Sets or, with null, takes out how many doors a case has.</summary>
public sealed record SetDoorsEdit(string Id, int? Doors) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (layout.Find(Id) is not ("fixtures", var fixture)) return [];
        if (Doors is { } doors) fixture["doors"] = doors;
        else fixture.Remove("doors");
        return [Id];
    }
}

/// <summary>Sets the size of the store to an upright rectangle from the lower left corner of its box; one that has that size keeps its outline.</summary>
public sealed record StoreSizeEdit(double Width, double Height) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        var (x0, y0, x1, y1) = LayoutElementsJson.StoreBox(layout.Root) ?? default;
        if (x1 - x0 != Width || y1 - y0 != Height) layout.Root["outline"] = LayoutElementsJson.Rectangle(x0, y0, Width, Height);
        return [];
    }
}

/// <summary>Does several edits as one, to be undone as one.</summary>
/// <param name="Edits">In order.</param>
public sealed record SeveralEdits(IReadOnlyList<LayoutEdit> Edits) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout) => [.. Edits.SelectMany(e => e.Apply(layout)).Distinct()];
}

/// <summary>Says whether places are to scale, or made up as from a case list.</summary>
public sealed record ToScaleEdit(bool ToScale) : LayoutEdit
{
    /// <inheritdoc/>
    public override IReadOnlyList<string> Apply(LayoutElementsJson layout)
    {
        if (ToScale) layout.Root.Remove("schematic");
        else layout.Root["schematic"] = true;
        return [];
    }
}
