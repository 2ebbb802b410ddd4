using StoreMap.Plans;
using StoreMap.Surveys;

namespace StoreMap.History;

/// <summary>The readings of all visits by fixture, each with its state.</summary>
internal sealed class VisitReadings
{
    private readonly Dictionary<string, List<(NetReading Net, LikeState State)>>[] byVisit;

    public VisitReadings(Plan plan, IReadOnlyList<SurveyVisit> visits)
    {
        byVisit = new Dictionary<string, List<(NetReading, LikeState)>>[visits.Count];
        for (var v = 0; v < visits.Count; v++)
        {
            byVisit[v] = new(StringComparer.Ordinal);
            foreach (var net in visits[v].Survey.Readings)
            {
                if (FixtureOf(plan, net.Reading.Place) is not { } fixture || SaysNothing(net)) continue;
                if (!byVisit[v].TryGetValue(fixture, out var list)) byVisit[v][fixture] = list = [];
                list.Add((net, LikeState.Of(plan, net, plan.FindFixture(fixture))));
            }
        }
    }

    /// <summary>Readings of a fixture at a visit; empty when it was not probed.</summary>
    public IReadOnlyList<(NetReading Net, LikeState State)> this[int visit, string fixture] =>
        byVisit[visit].TryGetValue(fixture, out var list) ? list : [];

    // A reading inside a walk-in belongs to it even when it was placed by x, y.
    private static string? FixtureOf(Plan plan, ReadingPlace place) =>
        place.Fixture ?? (plan.FindFixture(place.Room) is { Kind: FixtureKind.WalkIn } walkIn ? walkIn.Id : null);

    // "No more than 300 ppm" after an over-range reading proves neither gas nor clean air.
    private static bool SaysNothing(NetReading net) => net.Bound == ReadingBound.Below && net.NetPpm > net.DetectionPpm;
}
