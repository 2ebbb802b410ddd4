namespace StoreMap.Plans;

/// <summary>What a fixture is; sets how it is probed and how its air behaves.</summary>
public enum FixtureKind
{
    /// <summary>Open multideck case with an air curtain.</summary>
    OpenCase,

    /// <summary>Case with doors along its front.</summary>
    DoorCase,

    /// <summary>Open-topped island, probed round its base and over its well.</summary>
    IslandCase,

    /// <summary>Service case, probed from the staff side.</summary>
    ServiceCase,

    /// <summary>Walk-in room.</summary>
    WalkIn,

    /// <summary>Plug-in unit with its own charge.</summary>
    SelfContained,
}

/// <summary>Which end, facing the case.</summary>
public enum CaseEnd
{
    /// <summary>The left end, facing the case.</summary>
    Left,

    /// <summary>The right end, facing the case.</summary>
    Right,
}

/// <summary>One refrigerated unit. Lengths in metres; distances along the front run from its first point.</summary>
public sealed record Fixture
{
    /// <summary>The permanent id, unique in the layout.</summary>
    public required string Id { get; init; }

    /// <summary>What the store calls it; defaults to <see cref="Id"/>.</summary>
    public required string Tag { get; init; }

    /// <summary>A name for people, such as "Fresh meat"; may be null.</summary>
    public string? Name { get; init; }

    /// <summary>The kind of fixture.</summary>
    public required FixtureKind Kind { get; init; }

    /// <summary>The line-up it is joined into; null when it stands alone.</summary>
    public string? LineUp { get; init; }

    /// <summary>Its ring on the plan, counter-clockwise, first point not repeated.</summary>
    public required IReadOnlyList<PlanPoint> Outline { get; init; }

    /// <summary>The edge probed from; null for a walk-in.</summary>
    public PlanLine? Front { get; init; }

    /// <summary>An island's second long edge, running in the same sense as the front; null for others.</summary>
    public PlanLine? Back { get; init; }

    /// <summary>Factory lengths along the front, in order; together they cover [0, front length]. Empty for a walk-in.</summary>
    public IReadOnlyList<Section> Sections { get; init; } = [];

    /// <summary>What can be lifted, in order along the front. Empty for a walk-in.</summary>
    public IReadOnlyList<Panel> Panels { get; init; } = [];

    /// <summary>Number of doors along the front.</summary>
    public int Doors { get; init; }

    /// <summary>True when doors were fitted to an open case later.</summary>
    public bool DoorsRetrofit { get; init; }

    /// <summary>The end with the valves; null when unknown.</summary>
    public CaseEnd? ValveEnd { get; init; }

    /// <summary>Drains, metres along the front.</summary>
    public IReadOnlyList<double> Drains { get; init; } = [];

    /// <summary>What is sold from it; may be null.</summary>
    public string? Product { get; init; }

    /// <summary>Year in which it was installed; null when unknown.</summary>
    public int? Installed { get; init; }

    /// <summary>A walk-in's doorway; null for others.</summary>
    public PlanSegment? Opening { get; init; }

    /// <summary>Evaporators of a walk-in.</summary>
    public IReadOnlyList<PlanPoint> Coils { get; init; } = [];

    /// <summary>The circuit that feeds a fixture without sections (a walk-in); null when unknown.</summary>
    public string? WalkInCircuit { get; init; }

    /// <summary>A self-contained unit's own refrigerant; null for others or when unknown.</summary>
    public string? Refrigerant { get; init; }

    /// <summary>A self-contained unit's own charge, kilograms.</summary>
    public double? ChargeKilograms { get; init; }

    /// <summary>True when the front's first point is the left end, facing the case.</summary>
    public bool FrontStartsLeft { get; init; } = true;

    /// <summary>Unit direction away from the fixture at a distance along the front; (0,-1) for a walk-in without a front.</summary>
    public PlanPoint OutwardAt(double along)
    {
        if (Front is null) return new PlanPoint(0, -1);
        var d = Front.DirectionAt(along);
        // Facing the case, left to right travel keeps the case on the left hand, so outward is to the right.
        return FrontStartsLeft ? new PlanPoint(d.Y, -d.X) : new PlanPoint(-d.Y, d.X);
    }

    /// <summary>Distance from the left end facing the case, metres, of a place along the front.</summary>
    public double FromLeft(double along) => Front is null || FrontStartsLeft ? along : Front.Length - along;

    /// <summary>True where its panels are numbered from the right end, facing the front, while distances are told from the left.</summary>
    public bool PanelsFromRight => Panels.Count > 1 && FromLeft(Panels[0].From) > FromLeft(Panels[^1].From);
}

/// <summary>One factory length of case.</summary>
/// <param name="Number">1 for the section at the front's first point.</param>
/// <param name="From">Metres along the front.</param>
/// <param name="To">Metres along the front, greater than <paramref name="From"/>.</param>
/// <param name="Coils">Coils in the section, at least 1.</param>
/// <param name="Circuit">The circuit that feeds it; null when unknown.</param>
public sealed record Section(int Number, double From, double To, int Coils, string? Circuit);

/// <summary>What the technician lifts to look.</summary>
public enum PanelKind
{
    /// <summary>Deck pan inside the case.</summary>
    DeckPan,

    /// <summary>Kick plate at the floor.</summary>
    KickPlate,

    /// <summary>Canopy at the top.</summary>
    Canopy,

    /// <summary>Rear panel.</summary>
    Rear,

    /// <summary>Valve cover.</summary>
    ValveCover,
}

/// <summary>One panel: <c>C3/1</c> is the first from the front's first point.</summary>
/// <param name="Id">Fixture id, a slash, and the number.</param>
/// <param name="Kind">What is lifted.</param>
/// <param name="From">Metres along the front.</param>
/// <param name="To">Metres along the front.</param>
/// <param name="Minutes">Minutes to open, look and close.</param>
public sealed record Panel(string Id, PanelKind Kind, double From, double To, double Minutes);
