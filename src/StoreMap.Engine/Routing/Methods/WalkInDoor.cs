using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Where one stands before a walk-in's door: its air is judged against the room that the door opens to.</summary>
internal static class WalkInDoor
{
    /// <summary>The place outside the door at a distance, metres; null when the fixture is no walk-in with a doorway.</summary>
    public static PlanPoint? Outside(Fixture? fixture, double off)
    {
        if (fixture is not { Kind: FixtureKind.WalkIn, Opening: { Length: > 0 } door }) return null;
        var across = new PlanPoint(door.A.Y - door.B.Y, door.B.X - door.A.X) * (1 / door.Length);
        var one = door.Middle + (across * off);
        return Rings.Contains(fixture.Outline, one) ? door.Middle - (across * off) : one;
    }
}
