using StoreMap.Simulation.Stores;

namespace StoreMap.Evaluation;

/// <summary>What each leak of a store brings by itself to the coarse pass, without sensor and flicker.</summary>
/// <param name="CoarsePpm">Per leak, the highest ppm at a probe point of its own fixture (anywhere, for off-case sources).</param>
/// <param name="StandOut">Each leak brings 2 ppm or more to a probe point of its own fixture to which no other leak brings more.</param>
internal sealed record LeakShares(IReadOnlyList<double> CoarsePpm, bool StandOut)
{
    /// <summary>Ppm from which a leak counts: the action level.</summary>
    public const double ActionPpm = 2;

    public static LeakShares Of(SimulatedStore store, IReadOnlyList<NotedReading> coarse)
    {
        // With two leaks the walk is repeated with one of them, all chance alike.
        var walks = store.Leaks.Select(l => store.Leaks.Count == 1 ? coarse : Alone(store, l)).ToList();
        var highest = new double[walks.Count];
        var standOut = new bool[walks.Count];
        for (var l = 0; l < walks.Count; l++)
        {
            var fixture = store.Leaks[l].Fixture;
            for (var r = 0; r < coarse.Count; r++)
            {
                if (coarse[r].Place.Fixture is not { } at || (fixture is not null && at != fixture)) continue;
                var ppm = walks[l][r].GasPpm;
                highest[l] = Math.Max(highest[l], ppm);
                standOut[l] |= ppm >= ActionPpm && walks.All(w => w[r].GasPpm <= ppm);
            }
        }

        return new LeakShares(highest, Array.TrueForAll(standOut, x => x));
    }

    private static List<NotedReading> Alone(SimulatedStore store, StoreLeak leak)
    {
        var alone = new Surveyor(store, leak);
        SurveyPasses.Coarse(store, alone);
        return alone.Noted;
    }
}
