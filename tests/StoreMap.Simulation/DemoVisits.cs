using StoreMap.Plans;
using StoreMap.Routing;

namespace StoreMap.Simulation;

/// <summary>The three invented visits to Tern Hollow Market, and what really leaked at each.</summary>
public static class DemoVisits
{
    private const double Ft = LengthUnits.MetresPerFoot;
    private const double R448A = 86.28;
    private const double R404A = 97.60;

    /// <summary>Start of a visit and what happens in it.</summary>
    public sealed record Visit(DateTimeOffset Start, Scenario Scenario);

    /// <summary>Makes a visit.</summary>
    /// <param name="plan">Tern Hollow Market.</param>
    /// <param name="number">1, 2 or 3.</param>
    public static Visit Number(Plan plan, int number)
    {
        var start = number switch
        {
            1 => At("2026-06-09T05:20:00-05:00"),
            2 => At("2026-07-07T05:20:00-05:00"),
            3 => At("2026-08-04T05:20:00-05:00"),
            _ => throw new ArgumentOutOfRangeException(nameof(number), number, "There are three visits."),
        };
        var draft = ProbePlanner.Draft(plan, new Protocol());
        var coarse = Walk.Through(Walk.InDraftOrder(draft, p => p.Pass != ProbePass.Checklist), 60, 0.8);
        var stops = coarse.Concat(CloseIn(plan, number, coarse[^1])).ToList();
        return new Visit(start, new Scenario
        {
            Plan = plan,
            Seed = 20260000UL + (ulong)number,
            Leaks = Leaks(number),
            Sprays = number == 2 ? [] : [new Spray("R1", -900, 9, 0.3)],
            FansOff = number == 3 ? [new FansOff("C2", coarse[^1].ArriveSeconds, 1e6)] : [],
            Stops = stops,
        });
    }

    /// <summary>What leaked: the drop at the meat cases grows, the frozen case is repaired after June, the produce base and the
    /// line over the frozen cases come later.</summary>
    public static IReadOnlyList<SimulatedLeak> Leaks(int number)
    {
        var leaks = new List<SimulatedLeak>
        {
            new(LeakPlace.CaseAir, "C2", 3.4 * Ft, default, number switch { 1 => 45, 2 => 60, _ => 80 }, R448A),
        };
        if (number == 1) leaks.Add(new(LeakPlace.CaseAir, "C16", 15 * Ft, default, 60, R404A));
        if (number >= 2) leaks.Add(new(LeakPlace.Base, "C28", 18 * Ft, default, number == 2 ? 50 : 70, R448A));
        if (number == 3) leaks.Add(new(LeakPlace.Overhead, null, 0, new PlanPoint(171.5 * Ft, 78 * Ft), 160, R404A));
        return leaks;
    }

    /// <summary>July: a finer step at the meat case. August: its fans stopped, the joint sniffed, and the kick plates of the produce line-up.</summary>
    private static List<Stop> CloseIn(Plan plan, int number, Stop after)
    {
        var begin = after.ArriveSeconds + after.DwellSeconds + 120;
        var stops = new List<Stop>();
        if (number == 2) stops.AddRange(Walk.Through(Along(plan, "C2", [0, 2, 4, 6, 8, 10], Spot.Return, 12), begin, 0.8));
        if (number != 3) return stops;
        stops.AddRange(Walk.Through(Along(plan, "C28", [3, 9, 15, 21, 27, 33], Spot.KickPlate, 12), begin, 0.8));
        stops.AddRange(Walk.Through(Along(plan, "C29", [3, 9, 15, 21], Spot.KickPlate, 12), Next(stops) + 10, 0.8));
        stops.AddRange(Walk.Through(Along(plan, "C2", [1, 3, 5, 7, 9], Spot.Return, 12), Next(stops) + 180, 0.8, AirState.FansOff));
        stops.AddRange(Walk.Through(Along(plan, "C2", [3.4], Spot.Joint, 15), Next(stops) + 5, 0.8, AirState.FansOff));
        return stops;
    }

    private static double Next(List<Stop> stops) => stops[^1].ArriveSeconds + stops[^1].DwellSeconds;

    private static List<ProbePoint> Along(Plan plan, string fixture, double[] feet, Spot spot, double dwell)
    {
        var f = plan.FindFixture(fixture)!;
        return
        [
            .. feet.Select((at, i) => new ProbePoint
            {
                Id = FormattableString.Invariant($"{fixture}-N{i + 1:00}"),
                Fixture = fixture,
                Pass = ProbePass.CloseIn,
                Spot = spot,
                Height = spot == Spot.KickPlate ? ProbeHeight.Low : ProbeHeight.Mid,
                Along = at * Ft,
                At = f.Front!.PointAt(at * Ft),
                Stand = f.Front.PointAt(at * Ft) + (f.OutwardAt(at * Ft) * 0.5),
                DwellSeconds = dwell,
            }),
        ];
    }

    private static DateTimeOffset At(string text) => DateTimeOffset.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
