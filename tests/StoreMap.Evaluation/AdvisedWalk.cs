using StoreMap.Plans;
using StoreMap.Simulation.Stores;
using StoreMap.Zones;

namespace StoreMap.Evaluation;

/// <summary>How a visit that follows the next best probe compares with the fixed protocol.</summary>
/// <param name="FixedReadings">Readings of the fixed protocol after its coarse pass.</param>
/// <param name="Readings">Readings after the same coarse pass until the likeliest panel was as probable as the fixed protocol made its own,
/// until nothing more was advised, or as many as the fixed protocol took.</param>
/// <param name="Reached">The panel became as probable.</param>
/// <param name="FixedRight">The fixed protocol's likeliest panel holds the leak.</param>
/// <param name="Right">The advised visit's does.</param>
public sealed record AdvisedAnswer(int FixedReadings, int Readings, bool Reached, bool FixedRight, bool Right);

/// <summary>Surveys a store with one leak by advice: the coarse pass, then the next best probe of each answer.</summary>
internal static class AdvisedWalk
{
    private const int StillSeconds = 75;

    /// <summary>Walks it.</summary>
    /// <param name="store">The store.</param>
    /// <param name="end">What the fixed protocol came to after all its passes.</param>
    /// <param name="fixedReadings">Its readings after the coarse pass.</param>
    public static AdvisedAnswer Run(SimulatedStore store, LocateResult end, int fixedReadings)
    {
        var leak = store.Leaks[0];
        var (wanted, fixedRight) = Likeliest(end, leak);
        var surveyor = new Surveyor(store);
        SurveyPasses.Coarse(store, surveyor);
        for (var readings = 0; ; readings++)
        {
            var result = Judged.Locate(store.Plan, Judged.Readings(store, surveyor.Monitor, surveyor.ReadingsCsv()));
            var (probability, right) = Likeliest(result, leak);
            if (probability >= wanted || readings == fixedReadings || result.Next is not { Fixture: not null, Along: not null } next)
            {
                return new AdvisedAnswer(fixedReadings, readings, probability >= wanted, fixedRight, right);
            }

            var fixture = store.Plan.FindFixture(next.Fixture)!;
            if (next.Air == AirState.FansOff && surveyor.Noted.All(r => r.Air != AirState.FansOff || r.Place.Fixture != fixture.Id))
            {
                surveyor.StopFans(fixture.Id);
                surveyor.Wait(StillSeconds);
            }

            if (next.Spot == Spot.Ceiling) SurveyPasses.SweepAbove(store, surveyor, ProbePlace.On(fixture, next.Along.Value, null));
            else surveyor.Probe(ProbePlace.On(fixture, next.Along.Value, next.Spot, next.Spot == Spot.KickPlate ? ProbeHeight.Low : null));
        }
    }

    // The most probable panel, its zone's probability counted, and whether the leak is behind it.
    private static (double Probability, bool Right) Likeliest(LocateResult result, StoreLeak leak)
    {
        var best = (Probability: 0.0, Right: false);
        foreach (var zone in result.Zones)
        {
            foreach (var panel in zone.Panels.Where(p => zone.Probability * p.Probability > best.Probability))
            {
                best = (zone.Probability * panel.Probability, zone.Fixture == leak.Fixture && leak.Along >= panel.From && leak.Along <= panel.To);
            }
        }

        return best;
    }
}
