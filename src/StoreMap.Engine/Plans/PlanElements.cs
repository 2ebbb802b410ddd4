namespace StoreMap.Plans;

/// <summary>A way into the store.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="At">Place on the outline, metres.</param>
public sealed record Entrance(string Id, PlanPoint At);

/// <summary>What a room is for.</summary>
public enum RoomKind
{
    /// <summary>Sales floor.</summary>
    Sales,

    /// <summary>Preparation room.</summary>
    Prep,

    /// <summary>Bakery; its pan sprays can raise the monitor.</summary>
    Bakery,

    /// <summary>Stock room.</summary>
    Stock,

    /// <summary>Machine room.</summary>
    Machine,

    /// <summary>Office.</summary>
    Office,

    /// <summary>Any other room.</summary>
    Other,
}

/// <summary>A room: its outline is wall except at its openings.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Kind">What it is for.</param>
/// <param name="Outline">Counter-clockwise ring, metres.</param>
/// <param name="Openings">Doorways on the outline.</param>
/// <param name="Aerosol">True when sprays are used that a monitor may take for refrigerant.</param>
/// <param name="HeightMetres">Clear height, metres.</param>
public sealed record Room(
    string Id, string Name, RoomKind Kind, IReadOnlyList<PlanPoint> Outline, IReadOnlyList<PlanSegment> Openings, bool Aerosol,
    double HeightMetres)
{
    /// <summary>Store times between which sprays are in use; one that ends before it begins goes on past midnight. Empty when unknown.</summary>
    public IReadOnlyList<(TimeOnly From, TimeOnly To)> Work { get; init; } = [];

    /// <summary>Store times between which one may be inside; one that ends before it begins goes on past midnight. Empty for always.</summary>
    public IReadOnlyList<(TimeOnly From, TimeOnly To)> Entry { get; init; } = [];
}

/// <summary>A part of the floor without walls of its own, such as an aisle or the sales floor, with the hours at which one may be there. Floor
/// in a room is the room's and not the area's.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Name">Name for people.</param>
/// <param name="Outline">Counter-clockwise ring, metres.</param>
/// <param name="Entry">Store times between which one may be inside, at least one; one that ends before it begins goes on past midnight.</param>
public sealed record FloorArea(string Id, string Name, IReadOnlyList<PlanPoint> Outline, IReadOnlyList<(TimeOnly From, TimeOnly To)> Entry);

/// <summary>What blocks the walk and is not probed. May touch and overlap anything; the union counts.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Kind">A word such as <c>shelving</c>, <c>checkout</c>, <c>column</c>, <c>wall</c>.</param>
/// <param name="Outline">Counter-clockwise ring, metres.</param>
public sealed record Obstacle(string Id, string Kind, IReadOnlyList<PlanPoint> Outline);

/// <summary>Kinds of equipment without a front.</summary>
public enum EquipmentKind
{
    /// <summary>Compressor rack.</summary>
    Rack,

    /// <summary>Condensing unit.</summary>
    CondensingUnit,

    /// <summary>Condenser.</summary>
    Condenser,

    /// <summary>Valve station.</summary>
    ValveStation,

    /// <summary>Pipe run.</summary>
    PipeRun,

    /// <summary>Air handler.</summary>
    AirHandler,
}

/// <summary>A checklist stop: equipment that is not probed along a front.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Kind">What it is.</param>
/// <param name="At">Place on the plan, metres.</param>
/// <param name="Level">A word such as <c>floor</c>, <c>mezzanine</c>, <c>roof</c>.</param>
/// <param name="System">The system it belongs to; null when unknown.</param>
public sealed record Equipment(string Id, EquipmentKind Kind, PlanPoint At, string Level, string? System);

/// <summary>What runs under fixtures.</summary>
public enum PitKind
{
    /// <summary>Pit.</summary>
    Pit,

    /// <summary>Trench.</summary>
    Trench,

    /// <summary>Chase.</summary>
    Chase,
}

/// <summary>A pit, trench or chase.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Kind">Which.</param>
/// <param name="Outline">Counter-clockwise ring, metres.</param>
/// <param name="Fixtures">Ids of the fixtures above it.</param>
public sealed record Pit(string Id, PitKind Kind, IReadOnlyList<PlanPoint> Outline, IReadOnlyList<string> Fixtures);

/// <summary>Where a line set comes down.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="At">Place on the plan, metres.</param>
/// <param name="Fixtures">Ids of the fixtures it feeds.</param>
public sealed record Drop(string Id, PlanPoint At, IReadOnlyList<string> Fixtures);

/// <summary>A pipe run.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Path">Its course, metres.</param>
/// <param name="Level">A word such as <c>ceiling</c>, <c>under-floor</c>, <c>case-base</c>.</param>
/// <param name="Circuit">The circuit it carries; null when unknown.</param>
public sealed record Pipe(string Id, PlanLine Path, string Level, string? Circuit);

/// <summary>A valve that closes a circuit.</summary>
/// <param name="At">Place on the plan, metres; null when only described.</param>
/// <param name="Note">Words, such as <c>header 4</c>.</param>
public sealed record Shutoff(PlanPoint? At, string? Note);

/// <summary>How a circuit defrosts: off-cycle keeps the fans running, electric and hot-gas usually stop them.</summary>
/// <param name="Kind"><c>off-cycle</c>, <c>electric</c> or <c>hot-gas</c>.</param>
/// <param name="Starts">Local times at which it starts.</param>
/// <param name="Minutes">How long it lasts.</param>
public sealed record Defrost(string Kind, IReadOnlyList<TimeOnly> Starts, double Minutes);

/// <summary>A refrigerant branch.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="System">The system it hangs on; null when unknown.</param>
/// <param name="Shutoffs">Its valves.</param>
/// <param name="Defrost">Its defrost; null when unknown.</param>
public sealed record Circuit(string Id, string? System, IReadOnlyList<Shutoff> Shutoffs, Defrost? Defrost);

/// <summary>How a system brings cold to the cases.</summary>
public enum SystemType
{
    /// <summary>Direct expansion.</summary>
    Direct,

    /// <summary>Cascade.</summary>
    Cascade,

    /// <summary>Pumped liquid.</summary>
    Pumped,

    /// <summary>Secondary fluid: no refrigerant in the cases.</summary>
    Secondary,
}

/// <summary>A rack with one refrigerant and one charge.</summary>
/// <param name="Id">Unique id.</param>
/// <param name="Type">How it brings cold to the cases.</param>
/// <param name="Refrigerant">Such as <c>R-448A</c>; null when unknown.</param>
/// <param name="ChargeKilograms">Full charge, kilograms; null when unknown.</param>
public sealed record RefrigerationSystem(string Id, SystemType Type, string? Refrigerant, double? ChargeKilograms);
