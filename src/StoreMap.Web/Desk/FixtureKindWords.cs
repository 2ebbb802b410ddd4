namespace StoreMap.Web.Desk;

/// <summary>What the kinds of fixture are called on the screen.</summary>
internal static class FixtureKindWords
{
    /// <summary>Each kind as the file names it, with its word.</summary>
    public static IReadOnlyList<(string Kind, string Word)> All { get; } =
    [
        ("open-case", "Open case"), ("door-case", "Door case"), ("island-case", "Island"), ("service-case", "Service case"), ("self-contained", "Plug-in unit"), ("walk-in", "Walk-in"),
    ];
}
