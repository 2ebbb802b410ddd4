using System.Globalization;
using StoreMap.Plans;

namespace StoreMap.Routing;

/// <summary>Islands, twice: round the base at the floor, where gas from the pit and the pipes below comes out, and zigzag over the well
/// between front and discharge side.</summary>
internal static class IslandMethod
{
    /// <summary>An end shorter than this needs no point of its own, metres.</summary>
    private const double ShortEnd = 0.5;

    /// <summary>Along the front, round the end, along the back, round the other end.</summary>
    public static List<ProbePoint> Perimeter(DraftBuilder draft, Fixture fixture)
    {
        if (fixture.Front is not { } front) return [];
        var steps = Steps.Middles(front.Length, draft.Protocol.FrontStepMetres);
        var walked = new List<(double Along, PlanPoint At, PlanPoint Outward, bool OnBack)>();
        foreach (var along in steps) walked.Add((along, front.PointAt(along), fixture.OutwardAt(along), false));
        if (fixture.Back is { } back)
        {
            AddEnd(front.Length, front.PointAt(front.Length), back.PointAt(back.Length), front.DirectionAt(front.Length));
            foreach (var along in steps.Reverse()) walked.Add((along, OnBack(fixture, along), fixture.OutwardAt(along) * -1, true));
            AddEnd(0, front.PointAt(0), back.PointAt(0), front.DirectionAt(0) * -1);
        }

        var kept = walked.Where(w => draft.HoldsRefrigerant(fixture, w.Along)).ToList();
        SecondaryLoop.NoteMissing(draft, fixture, walked.Count - kept.Count, kept.Count);
        var overPit = draft.Plan.Pits.Any(p => p.Fixtures.Contains(fixture.Id)) ? "Over a pit: tip at the floor along the base." : "Tip at the floor along the base.";
        return LineDrops.Mark(draft, fixture, [.. kept.Select((w, i) => Point(draft, fixture, "P", i + 1, ProbePass.Perimeter, w.Along, w.At, w.Outward, w.OnBack) with
        {
            Spot = Spot.Perimeter,
            Note = overPit,
        })]);

        void AddEnd(double along, PlanPoint a, PlanPoint b, PlanPoint outward)
        {
            var middle = new PlanSegment(a, b).Middle;
            if (a.DistanceTo(b) >= ShortEnd && !Joined(draft, fixture, middle + (outward * draft.Protocol.StandOffMetres))) walked.Add((along, middle, outward, false));
        }
    }

    /// <summary>To and fro over the well: from one side when the tip reaches across, else along both sides to the middle.</summary>
    public static List<ProbePoint> Zigzag(DraftBuilder draft, Fixture fixture)
    {
        if (fixture.Front is not { } front) return [];
        var steps = Steps.Middles(front.Length, draft.Protocol.FrontStepMetres);
        var half = front.Length / 2;
        var width = fixture.Back is null ? 0 : front.PointAt(half).DistanceTo(OnBack(fixture, half));
        var wide = width > draft.Protocol.ReachMetres;
        var number = 0;
        var points = new List<ProbePoint>();
        foreach (var along in steps) Add(along, onBack: false);
        if (wide)
        {
            foreach (var along in steps.Reverse()) Add(along, onBack: true);
        }

        return points;

        void Add(double along, bool onBack)
        {
            number++;
            if (!draft.HoldsRefrigerant(fixture, along)) return;
            var near = onBack ? OnBack(fixture, along) : front.PointAt(along);
            var far = fixture.Back is null ? near : onBack ? front.PointAt(along) : OnBack(fixture, along);
            var over = number % 2 == 0;
            var at = !over ? near : wide ? new PlanSegment(near, far).Middle : far;
            var outward = fixture.OutwardAt(along) * (onBack ? -1 : 1);
            var point = Point(draft, fixture, "Z", number, ProbePass.Zigzag, along, near, outward, onBack);
            points.Add(point with
            {
                At = at,
                Spot = over ? Spot.Discharge : Spot.Front,
                Height = ProbeHeight.Mid,
                Note = over ? "Over the well at the discharge side." : "Over the well at the near lip.",
            });
        }
    }

    private static ProbePoint Point(
        DraftBuilder draft, Fixture fixture, string letter, int number, ProbePass pass, double along, PlanPoint at, PlanPoint outward, bool onBack) =>
        draft.At(draft.IdOf(fixture.Id, string.Create(CultureInfo.InvariantCulture, $"{letter}{number:00}")), pass, at, outward, draft.Protocol.DwellSeconds) with
        {
            Fixture = fixture.Id,
            Along = along,
            OnBack = onBack,
            Height = ProbeHeight.Low,
        };

    /// <summary>The place on the back across from a place on the front.</summary>
    private static PlanPoint OnBack(Fixture fixture, double along) =>
        fixture.Back!.PointAt(fixture.Back.Length * along / fixture.Front!.Length);

    /// <summary>True when the feet would stand in another fixture or an obstacle: the end is joined to it.</summary>
    private static bool Joined(DraftBuilder draft, Fixture fixture, PlanPoint stand) =>
        draft.Plan.Fixtures.Any(f => f.Id != fixture.Id && Rings.Contains(f.Outline, stand))
        || draft.Plan.Obstacles.Any(o => Rings.Contains(o.Outline, stand));
}
