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

    private static List<ProbePoint> Around(DraftBuilder draft, Fixture fixture, double along)
    {
        var (step, reach) = (draft.Protocol.CloseInStepMetres, draft.Protocol.CloseInReachMetres);
        var each = (int)Math.Floor((reach / step) + 1e-9);
        var points = new List<ProbePoint>();
        for (var k = -each; k <= each; k++)
        {
            var (on, at) = LineUpNeighbour.At(draft.Plan, fixture, along + (k * step));
            if (on is null) continue;
            points.Add(FrontPass.At(draft, on, at, Suffix(draft.Plan.Units, at), ProbePass.CloseIn) with
            {
                DwellSeconds = draft.Protocol.AtLeastDelay(draft.Protocol.CloseInDwellSeconds),
            });
        }

        points.Add(FrontPass.At(draft, fixture, along, "U" + Suffix(draft.Plan.Units, along)[1..], ProbePass.CloseIn) with
        {
            Spot = Spot.Ceiling, Height = ProbeHeight.High, DwellSeconds = draft.Protocol.AtLeastDelay(draft.Protocol.CloseInDwellSeconds), Note = UnderLines,
        });
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
