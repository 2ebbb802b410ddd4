namespace StoreMap.Plans;

/// <summary>What a layer or block of a drawing stands for in a layout.</summary>
public enum DrawingRole
{
    /// <summary>The inside of the outer walls; the largest figure counts.</summary>
    Outline,

    /// <summary>A room; its openings are to be drawn afterwards.</summary>
    Room,

    /// <summary>Walls, as lines or figures.</summary>
    Wall,

    /// <summary>Shelving.</summary>
    Shelving,

    /// <summary>Columns.</summary>
    Column,

    /// <summary>Checkouts.</summary>
    Checkout,

    /// <summary>Anything else that blocks the walk.</summary>
    Obstacle,

    /// <summary>Open cases.</summary>
    OpenCase,

    /// <summary>Door cases.</summary>
    DoorCase,

    /// <summary>Island cases.</summary>
    IslandCase,

    /// <summary>Service cases.</summary>
    ServiceCase,

    /// <summary>Walk-ins.</summary>
    WalkIn,

    /// <summary>Plug-in units.</summary>
    SelfContained,

    /// <summary>Pits.</summary>
    Pit,

    /// <summary>Trenches.</summary>
    Trench,

    /// <summary>Drops; long lines among them are pipe runs.</summary>
    Drop,

    /// <summary>Pipe runs.</summary>
    Pipe,

    /// <summary>Entrances.</summary>
    Entrance,

    /// <summary>Not part of the layout.</summary>
    Ignore,
}

/// <summary>Finds what a shape stands for: by what the user said, else by plain words in its block's or layer's name.</summary>
/// <param name="said">Roles by layer or block name.</param>
internal sealed class DrawingRoles(IReadOnlyDictionary<string, DrawingRole> said)
{
    // In this order: "door case" before "door", "walk-in cooler" before "wall". English words as drawings of stores use them (common practice).
    private static readonly (string Word, DrawingRole Role)[] Words =
    [
        ("outline", DrawingRole.Outline), ("footprint", DrawingRole.Outline), ("walk-in", DrawingRole.WalkIn), ("walkin", DrawingRole.WalkIn), ("walk_in", DrawingRole.WalkIn),
        ("cooler", DrawingRole.WalkIn), ("freezer", DrawingRole.WalkIn), ("gondola", DrawingRole.Shelving), ("shelv", DrawingRole.Shelving), ("island", DrawingRole.IslandCase),
        ("door-case", DrawingRole.DoorCase), ("door_case", DrawingRole.DoorCase), ("doorcase", DrawingRole.DoorCase), ("reach-in", DrawingRole.DoorCase),
        ("service-case", DrawingRole.ServiceCase), ("service_case", DrawingRole.ServiceCase), ("self-contained", DrawingRole.SelfContained), ("plug-in", DrawingRole.SelfContained),
        ("case", DrawingRole.OpenCase), ("multideck", DrawingRole.OpenCase), ("checkout", DrawingRole.Checkout), ("check-out", DrawingRole.Checkout), ("column", DrawingRole.Column),
        ("trench", DrawingRole.Trench), ("pit", DrawingRole.Pit), ("drop", DrawingRole.Drop), ("riser", DrawingRole.Drop), ("pipe", DrawingRole.Pipe), ("piping", DrawingRole.Pipe),
        ("entrance", DrawingRole.Entrance), ("room", DrawingRole.Room), ("door", DrawingRole.Ignore), ("wall", DrawingRole.Wall), ("partition", DrawingRole.Wall),
        ("obstacle", DrawingRole.Obstacle), ("counter", DrawingRole.Obstacle),
    ];

    /// <summary>The role of a shape; null when nothing tells.</summary>
    public DrawingRole? Of(DrawnShape shape)
    {
        // The innermost block says most, then the blocks it stands in, then the layer.
        var names = shape.Source.Split('/').Skip(1).Reverse().Append(shape.Layer).ToList();
        foreach (var name in names)
        {
            if (said.TryGetValue(name, out var role)) return role;
        }

        foreach (var name in names)
        {
            foreach (var (word, role) in Words)
            {
                if (name.Contains(word, StringComparison.OrdinalIgnoreCase)) return role;
            }
        }

        return null;
    }
}
