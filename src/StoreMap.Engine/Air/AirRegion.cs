namespace StoreMap.Air;

/// <summary>Kinds of air on the plan.</summary>
internal enum AirRegionKind
{
    /// <summary>Open floor that lies in no room.</summary>
    Floor,

    /// <summary>The floor of a room.</summary>
    Room,

    /// <summary>The air inside a case.</summary>
    Case,

    /// <summary>The air of a walk-in.</summary>
    WalkIn,
}

/// <summary>One body of air.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Id">Id of the room or fixture; null for the open floor.</param>
/// <param name="Index">Index in the plan's rooms or fixtures; -1 for the open floor.</param>
internal sealed record AirRegion(AirRegionKind Kind, string? Id, int Index);
