using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Lays out the probe points of a store: each fixture by its kind's method, equipment by checklist, the air of every
/// department and room, and first of all the zero.</summary>
/// <remarks>Methods: common practice of the trade, stated in docs/probe-points.md with the reasons.</remarks>
public static partial class ProbePlanner
{
    /// <summary>Drafts the probe points of a store.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="protocol">Steps, dwells and choices.</param>
    /// <returns>Points with stable ids, grouped into what is walked in one go; the same for the same plan and protocol.</returns>
    /// <exception cref="RefusedInputException">A protocol value is out of its range.</exception>
    public static ProbeDraft Draft(Plan plan, Protocol protocol)
    {
        protocol.Check();
        var draft = new DraftBuilder(plan, protocol);
        draft.AddGroup("zero", [ZeroMethod.Point(draft)], turn: GroupTurn.First, reversible: false);
        foreach (var line in LineUps(plan))
        {
            var walked = LineUpOrder.Of([.. line.Select(f => AlongFront(draft, f)).Where(points => points.Count > 0)]);
            DischargeMethod.AddTo(draft, walked);
            draft.AddGroup(line[0].LineUp ?? line[0].Id, walked);
            foreach (var fixture in line) AddRounds(draft, fixture);
        }

        DepartmentMethod.AddTo(draft);
        if (protocol.Checklist) EquipmentMethod.AddTo(draft);
        return draft.Build();
    }

    /// <summary>The background point moved to where its department is entered, so that reading it costs no walk.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="background">A background point of its draft; a room's stays where it is.</param>
    /// <param name="first">The point of the department that is walked first.</param>
    /// <param name="protocol">The distance kept from the case.</param>
    public static ProbePoint AtEntry(Plan plan, ProbePoint background, ProbePoint first, Protocol protocol)
    {
        if (background.Room is not null) return background;
        var at = BackgroundPlace.Before(plan, first, protocol);
        return background with { At = at, Stand = at };
    }

    /// <summary>Fixtures by line-up, in the plan's order of first mention; one without a line-up stands alone.</summary>
    private static IEnumerable<List<Fixture>> LineUps(Plan plan) =>
        plan.Fixtures.GroupBy(f => f.LineUp is null ? (null, f.Id) : ((string?)f.LineUp, "")).Select(g => g.ToList());

    private static List<ProbePoint> AlongFront(DraftBuilder draft, Fixture fixture) => fixture.Kind switch
    {
        FixtureKind.OpenCase => OpenCaseMethod.Points(draft, fixture),
        FixtureKind.ServiceCase => ServiceCaseMethod.Points(draft, fixture),
        FixtureKind.DoorCase => DoorCaseMethod.Points(draft, fixture),
        FixtureKind.SelfContained => PlugInMethod.Points(draft, fixture),
        _ => [],
    };

    private static void AddRounds(DraftBuilder draft, Fixture fixture)
    {
        switch (fixture.Kind)
        {
            case FixtureKind.IslandCase:
                draft.AddGroup($"{fixture.Id}.perimeter", IslandMethod.Perimeter(draft, fixture));
                draft.AddGroup($"{fixture.Id}.zigzag", IslandMethod.Zigzag(draft, fixture));
                break;
            case FixtureKind.WalkIn:
                draft.AddGroup(fixture.Id, WalkInMethod.Points(draft, fixture), entrySeconds: draft.Protocol.WalkInSeconds);
                break;
        }
    }
}
