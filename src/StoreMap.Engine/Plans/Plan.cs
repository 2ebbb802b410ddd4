namespace StoreMap.Plans;

/// <summary>A store as the engine sees it: checked, defaults filled in, lengths in metres, y up, masses in kilograms.
/// Derived from a layout file and never written back; immutable.</summary>
public sealed record Plan
{
    /// <summary>The layout's id.</summary>
    public required string Id { get; init; }

    /// <summary>The store's name.</summary>
    public required string Name { get; init; }

    /// <summary>IANA time zone of the store; UTC when the layout names none.</summary>
    public string TimeZone { get; init; } = "UTC";

    /// <summary>The user's unit, for everything printed.</summary>
    public LengthUnit Units { get; init; } = LengthUnit.Metre;

    /// <summary>The unit of the layout file, by which the rules that apply and the usual paper go, also where <see cref="Units"/> is another.</summary>
    public LengthUnit FileUnits => WrittenIn ?? Units;

    private LengthUnit? WrittenIn { get; init; }

    /// <summary>Revision of the layout, at least 1.</summary>
    public int Revision { get; init; } = 1;

    /// <summary>First day on which this revision holds; null when not said.</summary>
    public DateOnly? ValidFrom { get; init; }

    /// <summary>Compass bearing of the +y axis, degrees clockwise in [0, 360); null when north is not given.</summary>
    public double? NorthDegrees { get; init; }

    /// <summary>True when the places are made up, as from a case list: lengths along fronts hold, the plan is not to scale.</summary>
    public bool Schematic { get; init; }

    /// <summary>Inside of the outer walls: a counter-clockwise ring, first point not repeated.</summary>
    public required IReadOnlyList<PlanPoint> Outline { get; init; }

    /// <summary>Where people come in.</summary>
    public IReadOnlyList<Entrance> Entrances { get; init; } = [];

    /// <summary>Rooms; floor in none of them is the sales area.</summary>
    public IReadOnlyList<Room> Rooms { get; init; } = [];

    /// <summary>Parts of the floor with hours of their own.</summary>
    public IReadOnlyList<FloorArea> Areas { get; init; } = [];

    /// <summary>Shelving, counters, columns: what blocks the walk and is not probed.</summary>
    public IReadOnlyList<Obstacle> Obstacles { get; init; } = [];

    /// <summary>Refrigerated units.</summary>
    public IReadOnlyList<Fixture> Fixtures { get; init; } = [];

    /// <summary>What is checked without a front: racks, condensers, valve stations.</summary>
    public IReadOnlyList<Equipment> Equipment { get; init; } = [];

    /// <summary>Pits, trenches and chases under fixtures.</summary>
    public IReadOnlyList<Pit> Pits { get; init; } = [];

    /// <summary>Where line sets come down.</summary>
    public IReadOnlyList<Drop> Drops { get; init; } = [];

    /// <summary>Known pipe runs.</summary>
    public IReadOnlyList<Pipe> Pipes { get; init; } = [];

    /// <summary>Refrigerant branches.</summary>
    public IReadOnlyList<Circuit> Circuits { get; init; } = [];

    /// <summary>Racks with one refrigerant and one charge.</summary>
    public IReadOnlyList<RefrigerationSystem> Systems { get; init; } = [];

    /// <summary>The same plan with its lengths shown in a unit.</summary>
    /// <param name="units">The unit; null for that of the file.</param>
    public Plan ShownIn(LengthUnit? units) => this with { Units = units ?? FileUnits, WrittenIn = FileUnits };

    /// <summary>The fixture with an id; null when there is none.</summary>
    public Fixture? FindFixture(string? id) => Fixtures.FirstOrDefault(f => f.Id == id);

    /// <summary>The system that feeds a place on a fixture.</summary>
    /// <param name="fixture">A fixture of this plan.</param>
    /// <param name="along">Metres along its front; any number for a walk-in.</param>
    /// <returns>The system, or null when the circuit or system is unknown or the unit is self-contained.</returns>
    public RefrigerationSystem? SystemAt(Fixture fixture, double along = 0)
    {
        var section = fixture.Sections.LastOrDefault(s => s.From <= along) ?? fixture.Sections.FirstOrDefault();
        var circuit = Circuits.FirstOrDefault(c => c.Id == (section?.Circuit ?? fixture.Sections.FirstOrDefault()?.Circuit ?? fixture.WalkInCircuit));
        return Systems.FirstOrDefault(s => s.Id == circuit?.System);
    }

    /// <summary>The known refrigerants of the store's systems and self-contained units, each once.</summary>
    public IReadOnlyList<Refrigerant> Refrigerants =>
        [.. Systems.Select(s => s.Refrigerant).Concat(Fixtures.Select(f => f.Refrigerant)).Select(Refrigerant.Find).OfType<Refrigerant>().Distinct()];

    /// <summary>The refrigerant at a place on a fixture, such as <c>R-448A</c>; null when unknown.</summary>
    public string? RefrigerantAt(Fixture fixture, double along = 0) => fixture.Refrigerant ?? SystemAt(fixture, along)?.Refrigerant;
}
