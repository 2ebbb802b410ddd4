using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Collects a draft: gives ids, finds rooms, keeps groups and notes.</summary>
internal sealed class DraftBuilder(Plan plan, Protocol protocol)
{
    private readonly List<ProbePoint> points = [];
    private readonly List<ProbeGroup> groups = [];
    private readonly List<ProbeDepartment> departments = [];
    private readonly List<ProbeNote> notes = [];
    private readonly ProbeIds ids = new();
    private readonly ProbeIds groupIds = new();

    /// <summary>Grams per mole of dry air.</summary>
    private const double AirMolarMass = 28.965;

    public Plan Plan { get; } = plan;

    public Protocol Protocol { get; } = protocol;

    public IReadOnlyList<ProbeGroup> Groups => groups;

    /// <summary>An id such as <c>C3-F01</c>, unique in the draft.</summary>
    public string IdOf(string owner, string suffix) => ids.Take("", owner, $"-{suffix}");

    /// <summary>An id such as <c>B-L1</c> for a place that is no fixture's.</summary>
    public string IdFor(string prefix, string owner) => ids.Take($"{prefix}-", owner, "");

    /// <summary>A point of a draft with the feet in front of the tip.</summary>
    public ProbePoint At(string id, ProbePass pass, PlanPoint at, PlanPoint outward, double dwellSeconds)
    {
        var stand = at + (outward * Protocol.StandOffMetres);
        return new()
        {
            Id = id,
            Pass = pass,
            At = at,
            Stand = stand,
            Room = PlanPlaces.RoomAt(Plan, stand),
            DwellSeconds = Protocol.AtLeastDelay(dwellSeconds),
        };
    }

    /// <summary>The room from which a point is reached, that before the door for one in a walk-in; null from the sales floor.</summary>
    public Room? RoomBefore(ProbePoint point)
    {
        var room = PlanPlaces.RoomAt(Plan, Approach(point));
        return Plan.Rooms.FirstOrDefault(r => r.Id == room);
    }

    /// <summary>Where the air before a point is met: at its stand, or outside a walk-in's door.</summary>
    public PlanPoint Approach(ProbePoint point) => WalkInDoor.Outside(Plan.FindFixture(point.Fixture), Protocol.StandOffMetres) ?? point.Stand;

    /// <summary>False where a secondary loop brings the cold: no refrigerant reaches the case there.</summary>
    public bool HoldsRefrigerant(Fixture fixture, double along) => Plan.SystemAt(fixture, along)?.Type != SystemType.Secondary;

    /// <summary>The tip's height: gases heavier than air sink, ammonia rises.</summary>
    public ProbeHeight Settling(Fixture fixture, double along) =>
        Refrigerant.Find(Plan.RefrigerantAt(fixture, along)) is { MolarMass: < AirMolarMass } ? ProbeHeight.High : ProbeHeight.Low;

    public void Note(string element, string text) => notes.Add(new(element, text));

    public void AddGroup(
        string name, IReadOnlyList<ProbePoint> walked, GroupTurn turn = GroupTurn.Any, bool reversible = true, double entrySeconds = 0)
    {
        if (walked.Count == 0) return;
        points.AddRange(walked);
        var fixtures = walked.Select(p => p.Fixture).OfType<string>().Distinct().ToList();
        var room = Plan.Rooms.FirstOrDefault(r => r.Id == walked[0].Room) ?? RoomBefore(walked[0]);
        groups.Add(new()
        {
            Id = groupIds.Take("", name, ""),
            Points = [.. walked.Select(p => p.Id)],
            Reversible = reversible && walked.Count > 1,
            Turn = turn == GroupTurn.Any && room is { Aerosol: true } && Protocol.AerosolRoomsLast ? GroupTurn.Last : turn,
            Fixtures = fixtures,
            Room = room?.Id,
            Gas = walked[0] is { Fixture: not null } first ? Plan.RefrigerantAt(Plan.FindFixture(first.Fixture)!, first.Along ?? 0) : null,
            EntrySeconds = entrySeconds,
        });
    }

    public void AddDepartment(string background, IReadOnlyList<string> served) => departments.Add(new(background, served));

    public ProbePoint Point(string id) => points.First(p => p.Id == id);

    public ProbeDraft Build() => new(InOrder(), groups, departments, notes);

    /// <summary>Zero, backgrounds, fixtures in the plan's order, equipment; within one by id.</summary>
    private List<ProbePoint> InOrder()
    {
        var rank = new Dictionary<string, int>();
        foreach (var f in Plan.Fixtures) rank[f.Id] = rank.Count;
        return
        [
            .. points.OrderBy(p => p.Pass switch
            {
                ProbePass.Zero => 0,
                ProbePass.Background => 1,
                ProbePass.Checklist => 3,
                _ => 2,
            }).ThenBy(p => p.Fixture is null ? 0 : rank[p.Fixture]).ThenBy(p => p.Id, StringComparer.Ordinal),
        ];
    }
}
