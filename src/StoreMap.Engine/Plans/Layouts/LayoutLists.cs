namespace StoreMap.Plans;

/// <summary>The names of a layout's lists of elements, in the order in which they are read.</summary>
internal static class LayoutLists
{
    public const string Entrances = "entrances";
    public const string Rooms = "rooms";
    public const string Areas = "areas";
    public const string Obstacles = "obstacles";
    public const string Fixtures = "fixtures";
    public const string Equipment = "equipment";
    public const string Pits = "pits";
    public const string Drops = "drops";
    public const string Pipes = "pipes";
    public const string Circuits = "circuits";
    public const string Systems = "systems";

    /// <summary>All lists.</summary>
    public static IReadOnlyList<string> All { get; } =
        [Entrances, Rooms, Areas, Obstacles, Fixtures, Equipment, Pits, Drops, Pipes, Circuits, Systems];
}
