namespace StoreMap.Plans;

/// <summary>A method applied to a fixture or a place.</summary>
public enum ProbePass
{
    /// <summary>Warm-up and zero in clean air, before everything else.</summary>
    Zero,

    /// <summary>The air of a room or department, away from fixtures.</summary>
    Background,

    /// <summary>Along the front.</summary>
    Front,

    /// <summary>Discharge air.</summary>
    Discharge,

    /// <summary>Round the base of an island, at the floor.</summary>
    Perimeter,

    /// <summary>To and fro across an island between front and discharge side.</summary>
    Zigzag,

    /// <summary>At cracked doors.</summary>
    Doors,

    /// <summary>Low and high inside a walk-in.</summary>
    LowHigh,

    /// <summary>At an evaporator of a walk-in.</summary>
    Coil,

    /// <summary>A checklist stop at equipment.</summary>
    Checklist,

    /// <summary>A finer step around a hit.</summary>
    CloseIn,

    /// <summary>The user's own point.</summary>
    Own,
}

/// <summary>Where on a fixture the tip is held.</summary>
public enum Spot
{
    /// <summary>Discharge grille.</summary>
    Discharge,

    /// <summary>Return grille.</summary>
    Return,

    /// <summary>At the front, no nearer said.</summary>
    Front,

    /// <summary>Round the base.</summary>
    Perimeter,

    /// <summary>Kick plate.</summary>
    KickPlate,

    /// <summary>Deck.</summary>
    Deck,

    /// <summary>Drain.</summary>
    Drain,

    /// <summary>Coil end.</summary>
    CoilEnd,

    /// <summary>Valve end.</summary>
    ValveEnd,

    /// <summary>Gap of a door.</summary>
    DoorGap,

    /// <summary>Where a line set comes down.</summary>
    LineDrop,

    /// <summary>Ceiling.</summary>
    Ceiling,

    /// <summary>A joint.</summary>
    Joint,
}

/// <summary>Height of the tip.</summary>
public enum ProbeHeight
{
    /// <summary>Within about 0.3 m of the floor or the case bottom.</summary>
    Low,

    /// <summary>Waist to breast height.</summary>
    Mid,

    /// <summary>Above the head.</summary>
    High,
}

/// <summary>The air state of a fixture: fans mix and hide, still air pinpoints.</summary>
public enum AirState
{
    /// <summary>Fans running.</summary>
    FansOn,

    /// <summary>Fans stopped.</summary>
    FansOff,

    /// <summary>In defrost.</summary>
    Defrost,
}

/// <summary>One place, spot and height at which the probe is held. Plan metres.</summary>
public sealed record ProbePoint
{
    /// <summary>Unique id, at most 32 of [A-Za-z0-9._-]; stable for the same layout and protocol.</summary>
    public required string Id { get; init; }

    /// <summary>The fixture probed; null for rooms, equipment and own points.</summary>
    public string? Fixture { get; init; }

    /// <summary>The equipment checked; null otherwise.</summary>
    public string? Equipment { get; init; }

    /// <summary>The room it lies in; null on the sales floor.</summary>
    public string? Room { get; init; }

    /// <summary>The method.</summary>
    public required ProbePass Pass { get; init; }

    /// <summary>Where on the fixture.</summary>
    public Spot Spot { get; init; } = Spot.Front;

    /// <summary>Height of the tip.</summary>
    public ProbeHeight Height { get; init; } = ProbeHeight.Mid;

    /// <summary>Where the probe goes.</summary>
    public required PlanPoint At { get; init; }

    /// <summary>Where the feet are; on free floor once the route is planned.</summary>
    public required PlanPoint Stand { get; init; }

    /// <summary>Metres along the fixture's front from its first point; null when the pass is not along a front.</summary>
    public double? Along { get; init; }

    /// <summary>True on the far long edge of an island.</summary>
    public bool OnBack { get; init; }

    /// <summary>How long the probe is held, seconds.</summary>
    public double DwellSeconds { get; init; }

    /// <summary>The reason or the thing to do there; may be null.</summary>
    public string? Note { get; init; }
}
