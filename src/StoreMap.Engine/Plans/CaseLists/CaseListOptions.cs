namespace StoreMap.Plans;

/// <summary>What a case list itself does not say.</summary>
public sealed record CaseListOptions
{
    /// <summary>The unit of the layout made; feet by default.</summary>
    public LengthUnit Units { get; init; } = LengthUnit.Foot;

    /// <summary>The unit of the lengths in the list; by default that of the layout.</summary>
    public LengthUnit? ListUnits { get; init; }

    /// <summary>The layout's id, 1 to 64 of a–z 0–9 -; by default made from the file's name.</summary>
    public string? Id { get; init; }

    /// <summary>The store's name; by default the id.</summary>
    public string? Name { get; init; }

    /// <summary>The store's IANA time zone; left out by default.</summary>
    public string? TimeZone { get; init; }
}
