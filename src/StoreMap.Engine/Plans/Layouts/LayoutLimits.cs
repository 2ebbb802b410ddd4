namespace StoreMap.Plans;

/// <summary>What a layout may hold at most, and what sizes are believable. Lengths in metres. Stated in docs/formats.md.</summary>
internal static class LayoutLimits
{
    /// <summary>Nesting of the JSON text.</summary>
    public const int Depth = 32;

    /// <summary>Elements in one list.</summary>
    public const int Elements = 2000;

    /// <summary>Ids in one element's list.</summary>
    public const int References = 200;

    /// <summary>Corners of a ring or points of a line.</summary>
    public const int Points = 2000;

    /// <summary>Points of all rings and lines together.</summary>
    public const int AllPoints = 50_000;

    /// <summary>Characters of a name, note or product.</summary>
    public const int Text = 200;

    /// <summary>Farthest coordinate from the origin.</summary>
    public const double Coordinate = 100_000;

    /// <summary>Longest side of a store.</summary>
    public const double StoreMost = 2000;

    /// <summary>Shortest side of a store.</summary>
    public const double StoreLeast = 1;

    /// <summary>Longest side of one fixture.</summary>
    public const double FixtureMost = 150;

    /// <summary>Shortest side of one fixture.</summary>
    public const double FixtureLeast = 0.1;

    /// <summary>Longest factory section of case: 40 ft; real ones end at 12 ft.</summary>
    public const double SectionMost = 40 * LengthUnits.MetresPerFoot;

    /// <summary>Shortest factory section of case: 6 in.</summary>
    public const double SectionLeast = 0.5 * LengthUnits.MetresPerFoot;

    /// <summary>What a drawing may be off by (end panels, thickness of walls and bumpers) and still be used: 6 in.</summary>
    public const double Slack = 0.5 * LengthUnits.MetresPerFoot;

    /// <summary>Below this a difference is rounding, and nobody is told: 5 mm.</summary>
    public const double Rounding = 0.005;

    /// <summary>Room for rounding in comparisons with a limit, so that exactly 6 in passes: a micrometre.</summary>
    public const double Tiny = 1e-6;
}
