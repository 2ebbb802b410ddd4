using StoreMap.Plans;
using StoreMap.Walking;

namespace StoreMap.Routing;

/// <summary>Turns the shortest walk into one that meets a leak sooner and is at most a stated share longer.</summary>
internal static class RiskFirst
{
    /// <summary>Backgrounds are placed after the search; it is run again with less room when they make the walk too long.</summary>
    private const int MostTries = 6;

    private const int MostPlaces = 5;

    /// <summary>Searches for the walk.</summary>
    /// <param name="plan">The store.</param>
    /// <param name="paths">Walks on its free floor.</param>
    /// <param name="draft">Points and groups.</param>
    /// <param name="request">With weights that say something of the draft's points.</param>
    /// <param name="walk">The draft as the searches see it.</param>
    /// <param name="shortest">The shortest order found.</param>
    /// <param name="measured">That order measured.</param>
    public static (MeasuredWalk Walk, RouteRisk Gain, long Steps, bool CutShort) Of(
        Plan plan, WalkingPaths paths, ProbeDraft draft, RouteRequest request, GroupWalk walk, GroupOrder shortest, MeasuredWalk measured)
    {
        var weights = request.Risk!;
        var most = measured.Length * (1 + request.RiskGrowth);
        var problem = Problem(plan, walk, weights, request.Closed);
        var (now, time) = RiskTour.Sum(problem, shortest);
        // Probing takes as long in any order; what may grow is the time on foot and for changes of gas.
        problem = problem with { MostSeconds = time + (request.RiskGrowth * 60 * (measured.Minutes.Walking + (measured.GasChanges.Count * request.Protocol.ZeroMinutes))) };
        var (best, steps, cutShort) = (measured, 0L, false);
        // What lies between the search's length and the walk's: the ways to backgrounds.
        var beside = measured.Length - now;
        for (var attempt = 0; attempt < MostTries && !cutShort; attempt++)
        {
            var (found, taken, cut) = RiskTour.Run(problem with { MostMetres = Math.Max(now, most - beside) }, shortest, request.Budget);
            (steps, cutShort) = (steps + taken, cut);
            var then = MeasuredWalk.Of(plan, paths, walk.OrderOf(found), draft, request);
            if (then.Length <= most + 1e-9)
            {
                if (then.ExpectedMinutes(weights) < best.ExpectedMinutes(weights)) best = then;
                break;
            }

            beside = Math.Max(beside, then.Length - RiskTour.Sum(problem, found).Metres) + (0.25 * (then.Length - most));
        }

        var gain = new RouteRisk(
            best.ExpectedMinutes(weights)!.Value, measured.ExpectedMinutes(weights)!.Value, measured.Length, measured.Minutes.Total, request.RiskGrowth, Likeliest(draft, weights));
        return (best, gain, steps, cutShort);
    }

    private static RiskProblem Problem(Plan plan, GroupWalk walk, RiskWeights weights, bool closed)
    {
        var count = walk.Points.Count;
        var seconds = new double[count * count];
        for (var i = 0; i < count; i++)
        {
            for (var j = 0; j < count; j++) seconds[(i * count) + j] = walk.Seconds(i, j);
        }

        WalkPiece Through(ProbeGroup group, IEnumerable<string> ids)
        {
            // Entering takes its time before the first reading.
            var piece = WalkPiece.None;
            foreach (var id in ids)
            {
                var (at, first) = (walk.Index[id], piece.First < 0);
                var spent = (first ? group.EntrySeconds : 0) + walk.Protocol.HandlingSeconds(plan, walk.Points[at]) + walk.Points[at].DwellSeconds;
                var one = new WalkPiece(at, at, 0, spent, weights.At(id), weights.At(id) * spent);
                piece = first ? one : piece.Then(one, walk.Distances[(piece.Last * count) + at], seconds[(piece.Last * count) + at]);
            }

            return piece;
        }

        return new(
            walk.Distances, seconds, count, walk.Ends, [.. walk.Groups.Select(g => Through(g, g.Points))],
            [.. walk.Groups.Select(g => Through(g, g.Points.Reverse()))], closed, double.PositiveInfinity, double.PositiveInfinity);
    }

    private static List<RiskPlace> Likeliest(ProbeDraft draft, RiskWeights weights)
    {
        var total = draft.Points.Sum(p => weights.At(p.Id));
        return
        [
            .. draft.Points.Where(p => (p.Fixture ?? p.Equipment) is not null).GroupBy(p => (p.Fixture ?? p.Equipment)!)
                .Select(g => new RiskPlace(g.Key, g.Sum(p => weights.At(p.Id)) / total, weights.Reasons.GetValueOrDefault(g.Key)))
                .Where(p => p.Share > 0).OrderByDescending(p => p.Share).ThenBy(p => p.Element, StringComparer.Ordinal).Take(MostPlaces),
        ];
    }
}
