using StoreMap.Plans;

namespace StoreMap.Simulation.Stores;

/// <summary>Where the tip is held.</summary>
/// <param name="Fixture">Fixture id; null in open air.</param>
/// <param name="Along">Metres along the front or back.</param>
/// <param name="OnBack">True on an island's back.</param>
/// <param name="At">Plan metres.</param>
/// <param name="Stand">Where the feet are, plan metres.</param>
/// <param name="Spot">What the technician writes down; null for nothing.</param>
/// <param name="Height">What the technician writes down; null for nothing.</param>
public sealed record ProbePlace(string? Fixture, double Along, bool OnBack, PlanPoint At, PlanPoint Stand, Spot? Spot = null, ProbeHeight? Height = null)
{
    /// <summary>A place on a fixture's front or back.</summary>
    public static ProbePlace On(Fixture fixture, double along, Spot? spot, ProbeHeight? height = null, bool onBack = false)
    {
        var line = onBack ? fixture.Back! : fixture.Front!;
        var outward = fixture.OutwardAt(along) * (onBack ? -1 : 1);
        return new ProbePlace(fixture.Id, along, onBack, line.PointAt(along), line.PointAt(along) + (outward * 0.6), spot, height);
    }

    /// <summary>A place in open air or inside a walk-in.</summary>
    public static ProbePlace Open(PlanPoint at, string? walkIn = null, ProbeHeight? height = null) => new(walkIn, 0, false, at, at, null, height);
}
