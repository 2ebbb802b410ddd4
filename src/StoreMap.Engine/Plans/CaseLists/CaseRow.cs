namespace StoreMap.Plans;

/// <summary>One row of a case list, checked.</summary>
internal sealed record CaseRow
{
    /// <summary>Row number as a spreadsheet shows it.</summary>
    public required int Number { get; init; }

    /// <summary>What the store calls the fixture; unique in the list.</summary>
    public required string Tag { get; init; }

    /// <summary>Kind of fixture.</summary>
    public required FixtureKind Kind { get; init; }

    /// <summary>Section lengths in the list's unit; a walk-in's width and depth.</summary>
    public required IReadOnlyList<double> Lengths { get; init; }

    /// <summary>Circuits: none, one, or one per section.</summary>
    public IReadOnlyList<string> Circuits { get; init; } = [];

    /// <summary>System; null when not said.</summary>
    public string? System { get; init; }

    /// <summary>Refrigerant, in its usual form when known; null when not said.</summary>
    public string? Refrigerant { get; init; }

    /// <summary>Doors; null when not said.</summary>
    public int? Doors { get; init; }

    /// <summary>Line-up; null when the fixture stands alone.</summary>
    public string? LineUp { get; init; }

    /// <summary>Product; may be null.</summary>
    public string? Product { get; init; }

    /// <summary>Name for people; may be null.</summary>
    public string? Name { get; init; }

    /// <summary>Row as messages name it.</summary>
    public string Element => $"row {Number}";

    /// <summary>Length along the front; a walk-in's width.</summary>
    public double Front => Kind == FixtureKind.WalkIn ? Lengths[0] : Lengths.Sum();
}
