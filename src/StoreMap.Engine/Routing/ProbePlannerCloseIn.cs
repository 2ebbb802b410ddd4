using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Routing;

public static partial class ProbePlanner
{
    private const string FansOff =
        "Best in still air: agree it with the store, close the liquid feed or put the circuit in defrost, then stop and lock out the fans; never stop fans on a fed coil.";

    private const string UnderLines =
        "Move the tip along under the lines overhead and write down the highest number: gas there speaks for a source above the case. A pole from the floor, clear of lights, wiring and sprinklers; nobody climbs on cases; skip what the pole does not reach.";

    /// <summary>A close-in pass around a hit: points at the finer step to both sides, on into the neighbours of the line-up, and one under the lines
    /// overhead; at a walk-in the places of each coil.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="fixture">The fixture that was hit.</param>
    /// <param name="along">Metres along its front, clamped to it; of no matter in a walk-in.</param>
    /// <param name="protocol">Step, reach and dwell.</param>
    /// <returns>Points in walking order. Ids tell the distance along the front in the plan's unit, so that the same place always has
    /// the same id.</returns>
    /// <exception cref="RefusedInputException">A protocol value is out of its range.</exception>
    public static IReadOnlyList<ProbePoint> CloseIn(Plan plan, Fixture fixture, double along, Protocol protocol)
    {
        protocol.Check();
        var draft = new DraftBuilder(plan, protocol);
        var points = fixture.Front is null ? AtCoils(draft, fixture) : Around(draft, fixture, Math.Clamp(along, 0, fixture.Front.Length));
        return [.. points.Select((p, i) => p with { Note = i == 0 ? FansOff : p.Note })];
    }

    /// <summary>One close-in point at a spot of its own, as where the next reading tells most.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="fixture">A fixture with a front.</param>
    /// <param name="along">Metres along its front, clamped to it.</param>
    /// <param name="spot">Where on the fixture; <see cref="Spot.Front"/> and <see cref="Spot.Ceiling"/> are the points of <see cref="CloseIn"/> there.</param>
    /// <param name="protocol">Dwell.</param>
    /// <returns>The point; its id tells spot and distance.</returns>
    /// <exception cref="ArgumentException">The fixture has no front.</exception>
    /// <exception cref="RefusedInputException">A protocol value is out of its range.</exception>
    public static ProbePoint CloseInAt(Plan plan, Fixture fixture, double along, Spot spot, Protocol protocol)
    {
        if (fixture.Front is not { } front) throw new ArgumentException("The fixture has no front.", nameof(fixture));
        protocol.Check();
        var (draft, at) = (new DraftBuilder(plan, protocol), Math.Clamp(along, 0, front.Length));
        if (spot == Spot.Ceiling) return UnderLinesAt(draft, fixture, at);
        var suffix = Suffix(plan.Units, at);
        var point = CloseInAt(draft, fixture, at, spot == Spot.Front ? suffix : $"{suffix}-{spot.Kebab()}");
        return point with { Spot = spot, Height = spot == Spot.KickPlate ? ProbeHeight.Low : point.Height };
    }

    /// <summary>What a technician who asks for closer points gets: one point at a spot where one is named, else a whole pass.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="fixture">The fixture.</param>
    /// <param name="along">Metres along its front, clamped to it; of no matter in a walk-in.</param>
    /// <param name="spot">The spot of the one point; null for closer points to both sides. Of no matter in a walk-in.</param>
    /// <param name="protocol">Step, reach and dwell.</param>
    /// <returns>Points in walking order.</returns>
    /// <exception cref="RefusedInputException">A protocol value is out of its range.</exception>
    public static IReadOnlyList<ProbePoint> Closer(Plan plan, Fixture fixture, double along, Spot? spot, Protocol protocol) =>
        spot is { } one && fixture.Front is not null ? [CloseInAt(plan, fixture, along, one, protocol)] : CloseIn(plan, fixture, along, protocol);

    private static ProbePoint CloseInAt(DraftBuilder draft, Fixture fixture, double along, string suffix) =>
        FrontPass.At(draft, fixture, along, suffix, ProbePass.CloseIn) with { DwellSeconds = draft.Protocol.AtLeastDelay(draft.Protocol.CloseInDwellSeconds) };

    private static ProbePoint UnderLinesAt(DraftBuilder draft, Fixture fixture, double along) =>
        CloseInAt(draft, fixture, along, "U" + Suffix(draft.Plan.Units, along)[1..]) with { Spot = Spot.Ceiling, Height = ProbeHeight.High, Note = UnderLines };

    private static List<ProbePoint> Around(DraftBuilder draft, Fixture fixture, double along)
    {
        var (step, reach) = (draft.Protocol.CloseInStepMetres, draft.Protocol.CloseInReachMetres);
        var each = (int)Math.Floor((reach / step) + 1e-9);
        var points = new List<ProbePoint>();
        for (var k = -each; k <= each; k++)
        {
            var (on, at) = LineUpNeighbour.At(draft.Plan, fixture, along + (k * step));
            if (on is null) continue;
            points.Add(CloseInAt(draft, on, at, Suffix(draft.Plan.Units, at)));
        }

        points.Add(UnderLinesAt(draft, fixture, along));
        return points;
    }

    private static List<ProbePoint> AtCoils(DraftBuilder draft, Fixture fixture) =>
    [
        .. WalkInMethod.Points(draft, fixture).Where(p => p.Pass == ProbePass.Coil).SelectMany((coil, i) => new[]
        {
            (Spot: Spot.CoilEnd, Height: ProbeHeight.High, Letter: "NC"), (Spot: Spot.ValveEnd, Height: ProbeHeight.High, Letter: "NV"),
            (Spot: Spot.Drain, Height: ProbeHeight.Low, Letter: "ND"),
        }.Select(s => coil with
        {
            Id = draft.IdOf(fixture.Id, string.Create(CultureInfo.InvariantCulture, $"{s.Letter}{i + 1:00}")),
            Pass = ProbePass.CloseIn,
            Spot = s.Spot,
            Height = s.Height,
            DwellSeconds = draft.Protocol.AtLeastDelay(draft.Protocol.CloseInDwellSeconds),
            Note = null,
        })),
    ];

    /// <summary>Such as <c>N12.5</c> for 12.5 ft along: about 3 cm in every unit.</summary>
    private static string Suffix(LengthUnit unit, double along)
    {
        var format = unit switch { LengthUnit.Metre => "0.00", LengthUnit.Foot => "0.0", _ => "0" };
        return "N" + unit.FromMetres(along).ToString(format, CultureInfo.InvariantCulture);
    }
}
