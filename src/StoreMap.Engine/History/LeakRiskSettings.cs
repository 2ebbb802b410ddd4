using StoreMap.Zones;

namespace StoreMap.History;

/// <summary>What a risk-first walk assumes of places before they are probed. Judgement, not measurement: set them to what your own stores
/// show. Explained in docs/routing.md.</summary>
public sealed record LeakRiskSettings
{
    /// <summary>Leaks per metre of case, odds at drops, valve ends, drains and joints, of meat cases. The defaults are the locator's.</summary>
    public LocateSettings Places { get; init; } = new();

    /// <summary>Expected leaks at one piece of equipment. The default is 0.05.</summary>
    public double LeaksPerEquipment { get; init; } = 0.05;

    /// <summary>Expected leaks of a plug-in unit, whose joints are sealed at the factory. The default is 0.003.</summary>
    public double LeaksPerPlugIn { get; init; } = 0.003;

    /// <summary>By how much each year since a fixture was installed adds to its expected leaks, as a share of a new one's. The default is 0.05.</summary>
    public double AgePerYear { get; init; } = 0.05;

    /// <summary>Share of a walk-in's expected leaks at its coils; the rest is spread over its other points. The default is 0.7.</summary>
    public double WalkInCoilShare { get; init; } = 0.7;
}
